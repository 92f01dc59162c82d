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
