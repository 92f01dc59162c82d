import { sha256Of } from '../../node/sha256.ts';

/** One of several processes that divide the files among themselves: the `number`-th of `of`, from 1. */
export interface Share {
  readonly number: number;
  readonly of: number;
}

/** Whether a file falls to this share. Decided by its path alone, so that new files leave the others where they are. */
export function fallsTo(share: Share, below: string): boolean {
  if (share.of === 1) return true;
  return Number.parseInt(sha256Of(new TextEncoder().encode(below)).slice(0, 12), 16) % share.of === share.number - 1;
}
