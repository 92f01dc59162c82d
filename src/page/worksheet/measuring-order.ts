import type { Measure } from '../../core/marker-set/measure.ts';

/** By instrument, so that each is taken up once; common practice. */
export const measuringOrder: readonly { readonly instrument: string; readonly measures: readonly Measure[] }[] = [
  { instrument: 'Scales', measures: ['mass'] },
  { instrument: 'Stadiometer', measures: ['stature'] },
  { instrument: 'Pelvimeter', measures: ['pelvisWidth', 'asisPsisDepth'] },
  { instrument: 'Two rulers', measures: ['asisTrochanterDepth'] },
  { instrument: 'Calliper', measures: ['kneeDiameter', 'ankleDiameter'] },
  { instrument: 'Tape', measures: ['legLength'] },
];
