import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { whiten } from '../../../src/core/decision/evidence.ts';
import {
  columnsOf,
  logPriorOf,
  type MarkerWay,
  probabilitiesOf,
  screenExplanations,
} from '../../../src/core/decision/explanations.ts';
import { logEvidence } from './closed-form.ts';

const real = fc.double({ min: -3, max: 3, noNaN: true });
const rules = 6;
/** Four markers with two slides, two with one; marker 5 may be off in two ways. */
const ways: MarkerWay[] = [
  { marker: 0, columns: [0, 1], odds: 0.02, isReading: false },
  { marker: 1, columns: [2, 3], odds: 0.02, isReading: false },
  { marker: 2, columns: [4], odds: 0.04, isReading: false },
  { marker: 3, columns: [5, 6], odds: 0.02, isReading: false },
  { marker: 4, columns: [7], odds: 0.04, isReading: false },
  { marker: 5, columns: [8, 9], odds: 0.01, isReading: false },
  { marker: 5, columns: [10, 11], odds: 0.01, isReading: false },
];

describe('screening', () => {
  it('gives every explanation it keeps the evidence of the closed form, and keeps all that weigh anything', () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(real, { minLength: rules, maxLength: rules }), { minLength: 12, maxLength: 12 }),
        fc.array(real, { minLength: rules, maxLength: rules }),
        (columns, deviation) => {
          const covariance = new Float64Array(rules * rules);
          for (let i = 0; i < rules; i++) covariance[i * rules + i] = 1 + i / 3;
          const model = whiten(
            { deviation: Float64Array.from(deviation), covariance },
            columns.map((column) => Float64Array.from(column)),
          )!;
          const variance = new Float64Array(12).fill(4);
          const kept = screenExplanations(model, ways, variance);
          for (const explanation of kept) {
            if (explanation.kind !== 'displaced') continue;
            const markers = explanation.ways.map(({ marker }) => marker);
            expect(new Set(markers).size).toBe(markers.length);
            const evidence = explanation.logOdds - logPriorOf(explanation);
            expect(Math.abs(evidence - logEvidence(model, columnsOf(explanation), variance))).toBeLessThan(1e-9);
          }
          const best = Math.max(...kept.map(({ logOdds }) => logOdds));
          for (const [index, way] of ways.entries()) {
            const odds = Math.log(way.odds) + logEvidence(model, way.columns, variance);
            const found = kept.some((one) => columnsOf(one).join() === way.columns.join());
            if (odds > best - 15.9) expect(found, `way ${index}`).toBe(true);
          }
        },
      ),
      { numRuns: 100 },
    );
  });

  it('counts singles, pairs and triples of markers, each once', () => {
    const model = whiten(
      {
        deviation: new Float64Array(rules),
        covariance: Float64Array.from({ length: rules * rules }, (_, i) => (i % (rules + 1) === 0 ? 1 : 0)),
      },
      Array.from({ length: 12 }, () => new Float64Array(rules)),
    )!;
    // Columns that nothing sees cost only their odds, so that all of them are kept.
    const sure = ways.map((way) => ({ ...way, odds: 0.5, isReading: false }));
    const kept = screenExplanations(model, sure, new Float64Array(12).fill(1));
    const sizes = kept.map((one) => one.ways.length);
    expect(sizes.filter((size) => size === 1)).toHaveLength(7);
    // 21 pairs of ways less the one of a marker with itself; 20 triples of six markers.
    expect(sizes.filter((size) => size === 2)).toHaveLength(20);
    expect(sizes.filter((size) => size === 3)).toHaveLength(20);
    expect(probabilitiesOf(kept).reduce((sum, value) => sum + value, 0)).toBeCloseTo(1, 12);
  });
});
