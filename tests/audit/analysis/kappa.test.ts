import { describe, expect, it } from 'vitest';
import { cohenKappa } from '../../../src/audit/analysis/kappa.ts';

function pairs(table: readonly (readonly number[])[]): [string, string][] {
  return table.flatMap((row, first) =>
    row.flatMap((count, second) => Array.from({ length: count }, (): [string, string] => [`c${first}`, `c${second}`])),
  );
}

describe("Cohen's kappa", () => {
  it('gives the worked example of an R package (statpsych 1.7.0, ci.kappa(.05, 31, 12, 4, 58); read)', () => {
    // https://rdocumentation.org/packages/statpsych/versions/1.7.0/topics/ci.kappa: 0.6756757, 0.07344761, 0.5317210, 0.8196303
    const { kappa, standardError, interval } = cohenKappa(
      pairs([
        [31, 12],
        [4, 58],
      ]),
    );
    expect(kappa).toBeCloseTo(0.6756757, 7);
    expect(standardError).toBeCloseTo(0.07344761, 7);
    expect(interval![0]).toBeCloseTo(0.531721, 5);
    expect(interval![1]).toBeCloseTo(0.8196303, 5);
  });

  it('gives the four verdicts of two dermatologists in a statistics manual (SAS/STAT, FREQ procedure)', () => {
    // Table read: https://support.sas.com/documentation/cdl/en/statug/67523/HTML/default/statug_freq_gettingstarted02.htm
    const { kappa, standardError, interval } = cohenKappa(
      pairs([
        [10, 4, 1, 0],
        [5, 10, 12, 2],
        [2, 4, 12, 5],
        [0, 2, 6, 13],
      ]),
    );
    // 0.3449, 0.0724, 0.2030 to 0.4868: from memory.
    expect([kappa, standardError, ...interval!].map((value) => value!.toFixed(4))).toEqual([
      '0.3449',
      '0.0724',
      '0.2030',
      '0.4868',
    ]);
  });

  it('is 1 where all agree, below 0 where they avoid each other, and none where one word was ever said', () => {
    expect(
      cohenKappa(
        pairs([
          [5, 0],
          [0, 7],
        ]),
      ).kappa,
    ).toBe(1);
    expect(
      cohenKappa(
        pairs([
          [0, 5],
          [5, 0],
        ]),
      ).kappa,
    ).toBe(-1);
    expect(cohenKappa(pairs([[9]]))).toMatchObject({ observed: 1, kappa: null, interval: null });
    expect(cohenKappa([]).kappa).toBeNull();
  });

  it('does not mind which reader is first', () => {
    const table = pairs([
      [20, 3, 1],
      [4, 11, 2],
      [0, 2, 7],
    ]);
    expect(cohenKappa(table.map(([a, b]) => [b, a])).kappa).toBeCloseTo(cohenKappa(table).kappa!, 12);
  });
});
