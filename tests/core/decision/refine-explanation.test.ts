import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { whiten } from '../../../src/core/decision/evidence.ts';
import { columnsOf, type Explanation, logPriorOf } from '../../../src/core/decision/explanations.ts';
import { refineExplanation } from '../../../src/core/decision/refine-explanation.ts';
import { logEvidence } from './closed-form.ts';

const rules = 5;
const real = fc.double({ min: -3, max: 3, noNaN: true });
const variance = new Float64Array([400, 400]);

function modelOf(deviation: readonly number[], columns: readonly (readonly number[])[]) {
  const covariance = new Float64Array(rules * rules);
  for (let i = 0; i < rules; i++) covariance[i * rules + i] = 1 + i;
  return whiten(
    { deviation: Float64Array.from(deviation), covariance },
    columns.map((column) => Float64Array.from(column)),
  )!;
}

function displaced(columns: readonly number[], logOdds = 0): Explanation {
  return { kind: 'displaced', ways: [{ marker: 0, columns, odds: 0.02, isReading: false }], logOdds };
}

describe('a refined explanation', () => {
  it('is the closed form where residuals are linear', () => {
    fc.assert(
      fc.property(
        fc.array(real, { minLength: rules, maxLength: rules }),
        fc.array(fc.array(real, { minLength: rules, maxLength: rules }), { minLength: 2, maxLength: 2 }),
        (measured, slopes) => {
          const model = modelOf(measured, slopes);
          const refined = refineExplanation(model, displaced([0, 1]), variance, (columns, u, deviation) => {
            for (let row = 0; row < rules; row++) {
              deviation[row] = measured[row]!;
              columns.forEach((column, i) => {
                deviation[row]! -= slopes[column]![row]! * u[i]!;
              });
            }
          });
          if (Math.hypot(...refined.displacementMm) > 59) return;
          expect(refined.converged).toBe(true);
          const evidence = logEvidence(model, columnsOf(refined), variance);
          expect(refined.logOdds - logPriorOf(refined)).toBeCloseTo(evidence, 6);
        },
      ),
      { numRuns: 200 },
    );
  });

  it('finds the lowest misfit of a bent residual, where the sensitivities at the measured pose lead past it', () => {
    // A wand that turns: what one millimetre changes falls with the turn. The truth stands 35 mm off, of a 45 mm reach.
    const bent = (mm: number): number => 20 * Math.sin((35 - mm) / 45);
    const slope = (20 / 45) * Math.cos(35 / 45);
    const measured = [bent(0), 0, 0, 0, 0];
    const model = modelOf(measured, [[slope, 0, 0, 0, 0]]);
    const misfit = (mm: number): number => bent(mm) ** 2 + mm ** 2 / variance[0]!;
    let lowest = 0;
    for (let mm = 0; mm <= 60; mm += 0.01) if (misfit(mm) < misfit(lowest)) lowest = mm;
    const refined = refineExplanation(model, displaced([0]), variance, (_, u, deviation) => {
      deviation.fill(0);
      deviation[0] = bent(u[0]!);
    });
    expect(refined.converged).toBe(true);
    expect(refined.displacementMm[0]).toBeCloseTo(lowest, 0);
    expect(misfit(refined.displacementMm[0]!) - misfit(lowest)).toBeLessThan(0.01);
  });

  it('holds no marker further off than 60 mm', () => {
    const measured = [200, 0, 0, 0, 0];
    const model = modelOf(measured, [[1, 0, 0, 0, 0]]);
    const refined = refineExplanation(model, displaced([0]), variance, (_, u, deviation) => {
      deviation.fill(0);
      deviation[0] = 200 - u[0]!;
    });
    expect(refined.displacementMm[0]).toBeCloseTo(60, 9);
  });

  it('says that it did not settle where the pose gives no figure, and keeps the linear ones', () => {
    const model = modelOf([3, 0, 0, 0, 0], [[1, 0, 0, 0, 0]]);
    const refined = refineExplanation(model, displaced([0], -1.5), variance, (_, __, deviation) => {
      deviation.fill(Number.NaN);
    });
    expect(refined.converged).toBe(false);
    expect(refined.logOdds).toBe(-1.5);
    // The least squares of a misfit of 3 with a slope of 1, drawn to nothing by the prior: 3 / (1 + 1 / 400).
    expect(refined.displacementMm[0]).toBeCloseTo(3 / (1 + 1 / 400), 9);
  });
});
