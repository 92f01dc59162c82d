/** A hand measurement, by its name in session files and marker sets. */
export type Measure =
  | 'mass'
  | 'stature'
  | 'pelvisWidth'
  | 'asisTrochanterDepth'
  | 'asisPsisDepth'
  | 'kneeDiameter'
  | 'ankleDiameter'
  | 'legLength';

export type MeasureUnit = 'mm' | 'cm' | 'm' | 'in' | 'kg' | 'lb';

const lengthUnits: readonly MeasureUnit[] = ['mm', 'cm', 'm', 'in'];
const massUnits: readonly MeasureUnit[] = ['kg', 'lb'];
const sided: readonly Measure[] = ['asisTrochanterDepth', 'kneeDiameter', 'ankleDiameter', 'legLength'];

/** Units that go with a measure. */
export function unitsOf(measure: Measure): readonly MeasureUnit[] {
  return measure === 'mass' ? massUnits : lengthUnits;
}

/** Whether it is taken on each side; the others are of the whole person. */
export function isSided(measure: Measure): boolean {
  return sided.includes(measure);
}
