import type { Share } from '../find/share-of-files.ts';
import type { PartSource } from './part-file.ts';

export function shareName({ number, of }: Share): string {
  return `${number} of ${of}`;
}

/**
 * Shares that are not there. Of two archives that were split alike there are two parts of each number, so the number that
 * is there most often says how many there should be of each.
 */
export function missingShares(shares: readonly Share[]): string[] {
  const splits = [...new Set(shares.map(({ of }) => of))].sort((a, b) => a - b);
  return splits.flatMap((of) => {
    const times = Array.from(
      { length: of },
      (_, index) => shares.filter((share) => share.of === of && share.number === index + 1).length,
    );
    const most = Math.max(...times);
    return times.flatMap((count, index) => new Array<string>(most - count).fill(shareName({ number: index + 1, of })));
  });
}

/** Whether two parts can tell of the same file: shares of one split cannot, whatever is in them. */
export function canOverlap(a: Share, b: Share): boolean {
  return a.of !== b.of || a.number === b.number;
}

/** Parts of one store tell of one archive: they have to be shares of one split. */
export function isOneSplit(shares: readonly Share[]): boolean {
  return shares.every((share, index) => shares.slice(0, index).every((other) => !canOverlap(share, other)));
}

/** How many recordings lie in two parts that can tell of the same file. */
export async function countOverlap(parts: readonly PartSource[]): Promise<number> {
  const isDoubtful = parts.map(({ header }, index) =>
    parts.some((other, at) => at !== index && canOverlap(header.share, other.header.share)),
  );
  const seen = new Map<string, Share[]>();
  const doubled = new Set<string>();
  for (const part of parts.filter((_, index) => isDoubtful[index])) {
    const { share } = part.header;
    for await (const sha256 of part.identities()) {
      if (sha256 === null) continue;
      const others = seen.get(sha256) ?? [];
      if (others.some((other) => canOverlap(share, other))) doubled.add(sha256);
      seen.set(sha256, [...others, share]);
    }
  }
  return doubled.size;
}
