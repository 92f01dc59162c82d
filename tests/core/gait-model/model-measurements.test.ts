import { describe, expect, it } from 'vitest';
import {
  asisTrochanterDepth,
  jointWidth,
  legLength,
  usedStature,
} from '../../../src/core/gait-model/model-measurements.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';

const session = (...measurements: Session['measurements'][number][]): Session => ({ ...emptySession, measurements });
const stature = { mm: 1756, from: 'stature' } as const;

describe('a width that the model rests on', () => {
  it('is what was measured, else what the markers show, else what stature lets expect', () => {
    const knee = { measure: 'kneeDiameter', side: 'right', value: 10.4, unit: 'cm' } as const;
    expect(jointWidth('kneeDiameter', 'right', session(knee), 98, stature)).toMatchObject({ mm: 104, from: 'session' });
    expect(jointWidth('kneeDiameter', 'left', session(knee), 98, stature)).toMatchObject({ mm: 98, from: 'markers' });
    expect(jointWidth('kneeDiameter', 'left', session(), null, stature).from).toBe('stature');
  });

  it('fits the published means of ankles, and the remembered ones of knees', () => {
    const by = (measure: 'kneeDiameter' | 'ankleDiameter', mm: number, sex: 'male' | 'female') =>
      jointWidth(measure, 'right', { ...emptySession, subject: { ...emptySession.subject, sex } }, null, {
        mm,
        from: 'stature',
      }).mm;
    // ANSUR II 2012, bimalleolar breadth at mean stature: men 74.8, women 67.0 mm.
    expect(Math.abs(by('ankleDiameter', 1756.2, 'male') - 74.8)).toBeLessThan(0.2);
    expect(Math.abs(by('ankleDiameter', 1628.5, 'female') - 67)).toBeLessThan(0.2);
    // From memory: about 101 and 93 mm in adults, 85 at ten years, 70 at five.
    const remembered = [
      [1756, 101],
      [1628, 93],
      [1385, 85],
      [1090, 70],
    ] as const;
    for (const [mm, width] of remembered) expect(Math.abs(by('kneeDiameter', mm, 'female') - width)).toBeLessThan(3);
  });

  it('takes a stature that fits the shank where none was recorded', () => {
    // ANSUR II 2012: from epicondyle to malleolus 418.8 mm in men of 1756.2 mm, 403.2 mm in women of 1628.5 mm.
    expect(Math.abs(usedStature(emptySession, 418.8).mm / 1756.2 - 1)).toBeLessThan(0.03);
    expect(Math.abs(usedStature(emptySession, 403.2).mm / 1628.5 - 1)).toBeLessThan(0.03);
    expect(usedStature(emptySession, 400).from).toBe('shank');
    const recorded = session({ measure: 'stature', side: null, value: 1.7, unit: 'm' });
    expect(usedStature(recorded, 400)).toEqual({ mm: 1700, from: 'stature' });
  });
});

describe('lengths of the hip regressions', () => {
  it('are those of both legs together, else estimated and marked', () => {
    const legs = session(
      { measure: 'legLength', side: 'right', value: 900, unit: 'mm' },
      { measure: 'legLength', side: 'left', value: 890, unit: 'mm' },
    );
    expect(legLength('right', legs, stature)).toMatchObject({ mm: 895, from: 'session' });
    expect(legLength('right', session(), stature).from).toBe('stature');
    expect(asisTrochanterDepth('left', session(), 900, stature)).toMatchObject({ from: 'stature' });
    // Derived from the rounded default of the regression: 67.36 mm at a leg length of 900, 28.72 at 600.
    expect(asisTrochanterDepth('left', session(), 900, stature).mm).toBeCloseTo(67.36, 2);
    expect(asisTrochanterDepth('left', session(), 600, stature).mm).toBeCloseTo(28.72, 2);
  });
});
