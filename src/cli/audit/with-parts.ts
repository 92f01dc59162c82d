import { mkdtemp, readdir, realpath, rm } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { combineParts } from '../../audit/parts/combine-parts.ts';
import { openPart } from '../../audit/parts/open-part.ts';
import type { PartSource, RowSource } from '../../audit/parts/part-file.ts';
import { countOverlap, isOneSplit, shareName } from '../../audit/parts/splits.ts';
import { counted } from '../../core/report/counted.ts';
import { describeSystemError } from '../../node/describe-system-error.ts';
import { InputError } from '../../node/input-error.ts';
import type { Channels } from '../channels.ts';

/**
 * Opens parts, and stores with parts in them, as one source of rows for as long as `use` takes. A part that is named
 * twice, by whatever way, is one.
 * @throws {InputError} where one cannot be read, is no part, or a store has none, or parts of different splits.
 */
export async function withParts<Result>(
  paths: readonly string[],
  channels: Channels,
  use: (rows: RowSource) => Promise<Result>,
): Promise<Result> {
  const scratch = await mkdtemp(join(tmpdir(), 'setsquare-audit-'));
  try {
    const opened = new Map<string, PartSource>();
    for (const path of paths) {
      const found = await partsIn(path);
      for (const part of found) {
        if (!opened.has(part)) opened.set(part, await openPart(part, join(scratch, `${opened.size}.jsonl`)));
      }
      const shares = found.map((part) => opened.get(part)!.header.share);
      if (!isOneSplit(shares)) {
        throw new InputError(
          `${path} holds parts of different splits (${shares.map(shareName).join(', ')}), which tell of the same files`,
          'delete those that are outdated, or run the audit again',
        );
      }
    }
    const parts = [...opened.values()];
    const doubled = await countOverlap(parts);
    if (doubled > 0) {
      channels.say(
        `${counted(doubled, 'recording lies', 'recordings lie')} in parts that may tell of the same files; if they do, name those of one split only, or files are counted twice.`,
      );
    }
    return await use(combineParts(parts));
  } finally {
    await rm(scratch, { recursive: true, force: true });
  }
}

/** Where they really lie. */
async function partsIn(path: string): Promise<string[]> {
  const real = await realpath(path).catch((error: unknown) => {
    throw describeSystemError(`Cannot read ${path}`, error);
  });
  const names = await readdir(real).catch(() => null);
  if (names === null) return [real];
  if (names.includes('parts')) return partsIn(join(path, 'parts'));
  const parts = names.filter((name) => /^[^.].*\.(parquet|jsonl)$/i.test(name)).sort();
  if (parts.length === 0)
    throw new InputError(`${path} holds no part of an audit`, 'name a store, or the parts themselves');
  return parts.map((name) => join(real, name));
}
