import { sha256Of } from '../../node/sha256.ts';
import type { RowSource } from '../parts/part-file.ts';

/** A trial that was drawn. Neither its assessor nor the tool's verdict is in it: the reader shall not know them. */
export interface DrawnTrial {
  readonly trial: string;
  readonly sha256: string;
  readonly subject: string | null;
  readonly on: string | null;
}

export interface DrawnSample {
  readonly seed: number;
  /** By assessor, in the order of the codes; '' stands for no code. */
  readonly strata: readonly { readonly assessor: string; readonly of: number; readonly drawn: number }[];
  /** In an order that tells nothing of the assessors. */
  readonly trials: readonly DrawnTrial[];
}

/**
 * Draws trials at random, from each assessor in proportion to what there is and at least one while there are enough.
 * Every trial has a rank that hangs on the seed and its content alone: the same seed draws the same trials from the same
 * archive, in whatever order it is read. Files that could not be read are not drawn.
 */
export async function drawSample(source: Pick<RowSource, 'rows'>, count: number, seed: number): Promise<DrawnSample> {
  const strata = new Map<string, { rank: string; trial: DrawnTrial }[]>();
  for await (const { sha256, trial, subject, visit_on, assessor, fault } of source.rows()) {
    if (sha256 === null || fault !== null) continue;
    const rank = sha256Of(new TextEncoder().encode(`${seed} ${sha256}`));
    const stratum = strata.get(assessor ?? '') ?? [];
    stratum.push({ rank, trial: { trial, sha256, subject, on: visit_on } });
    strata.set(assessor ?? '', stratum);
  }
  const ordered = [...strata].sort(([a], [b]) => (a < b ? -1 : 1));
  const shares = allocate(
    ordered.map(([, members]) => members.length),
    count,
  );
  const drawn = ordered.flatMap(([, members], index) => members.sort(byRank).slice(0, shares[index]));
  return {
    seed,
    strata: ordered.map(([assessor, members], index) => ({ assessor, of: members.length, drawn: shares[index]! })),
    trials: drawn.sort(byRank).map(({ trial }) => trial),
  };
}

function byRank(a: { readonly rank: string }, b: { readonly rank: string }): number {
  return a.rank < b.rank ? -1 : 1;
}

/**
 * Shares out `count` in proportion to the sizes: each gets one first where that is possible, then whole shares, then
 * the largest remainders. Never more than there is.
 */
export function allocate(sizes: readonly number[], count: number): number[] {
  const all = sizes.reduce((sum, size) => sum + size, 0);
  const wanted = Math.min(count, all);
  const shares: number[] = sizes.map((size) => (size > 0 && wanted >= sizes.length ? 1 : 0));
  const left = (): number => wanted - shares.reduce((sum, share) => sum + share, 0);
  while (left() > 0) {
    // The one that lags furthest behind its proportion is served next.
    let next = -1;
    let furthest = Number.NEGATIVE_INFINITY;
    sizes.forEach((size, index) => {
      const lag = (size / all) * wanted - shares[index]!;
      if (shares[index]! < size && lag > furthest) {
        furthest = lag;
        next = index;
      }
    });
    shares[next]! += 1;
  }
  return shares;
}
