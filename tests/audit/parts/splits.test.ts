import { describe, expect, it } from 'vitest';
import type { PartSource } from '../../../src/audit/parts/part-file.ts';
import { countOverlap, isOneSplit, missingShares } from '../../../src/audit/parts/splits.ts';
import { hashOf } from '../make-row.ts';

const share = (text: string) => {
  const [number, of] = text.split('/').map(Number) as [number, number];
  return { number, of };
};
const shares = (text: string) => text.split(' ').map(share);

describe('shares that are missing', () => {
  it.each([
    ['1/1', []],
    ['1/3 2/3 3/3', []],
    ['3/3 1/3', ['2 of 3']],
    // Two archives that were each split in two, and a third that was not.
    ['1/2 2/2 1/1 1/2', ['2 of 2']],
    ['1/2 2/2 1/1 1/2 2/2', []],
    ['2/4 1/3', ['2 of 3', '3 of 3', '1 of 4', '3 of 4', '4 of 4']],
  ])('of %s', (there, missing) => {
    expect(missingShares(shares(there))).toEqual(missing);
  });
});

describe('parts of one store', () => {
  it.each([
    ['1/1', true],
    ['1/3 2/3', true],
    ['1/1 1/3', false],
    ['1/3 1/3', false],
  ])('are of one split: %s %s', (there, isOne) => {
    expect(isOneSplit(shares(there))).toBe(isOne);
  });
});

describe('recordings that may be counted twice', () => {
  const part = (of: string, ...numbers: (number | null)[]) =>
    ({
      header: { share: share(of) },
      async *identities() {
        for (const number of numbers) yield number === null ? null : hashOf(number);
      },
    }) as unknown as PartSource;

  it('lie in parts of unlike splits, or in two parts of the same number', async () => {
    expect(await countOverlap([part('1/1', 1, 2, 3), part('1/2', 1, 2, null), part('2/2', 3, null)])).toBe(3);
    expect(await countOverlap([part('1/2', 1, 2), part('1/2', 2, 4)])).toBe(1);
  });

  it('are not copies in two shares of one split, nor what archives without a copy hold', async () => {
    expect(await countOverlap([part('1/2', 1, 2), part('2/2', 2, 3)])).toBe(0);
    expect(await countOverlap([part('1/1', 1, 2), part('1/1', 3, 4)])).toBe(0);
  });
});
