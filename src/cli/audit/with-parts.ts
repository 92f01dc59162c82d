import { mkdtemp, readdir, rm, stat } from 'node:fs/promises';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { combineParts } from '../../audit/parts/combine-parts.ts';
import { openPart } from '../../audit/parts/open-part.ts';
import type { RowSource } from '../../audit/parts/part-file.ts';
import { describeSystemError } from '../../node/describe-system-error.ts';
import { InputError } from '../../node/input-error.ts';

/**
 * Opens parts, and stores with parts in them, as one source of rows for as long as `use` takes.
 * @throws {InputError} where one cannot be read, is no part, or a store has none.
 */
export async function withParts<Result>(
  paths: readonly string[],
  use: (rows: RowSource) => Promise<Result>,
): Promise<Result> {
  const scratch = await mkdtemp(join(tmpdir(), 'setsquare-audit-'));
  try {
    const parts = [...new Set((await Promise.all(paths.map(partsIn))).flat())];
    const sources: RowSource[] = [];
    for (const [index, part] of parts.entries()) {
      sources.push(await openPart(part, join(scratch, `${index}.jsonl`)));
    }
    return await use(combineParts(sources));
  } finally {
    await rm(scratch, { recursive: true, force: true });
  }
}

async function partsIn(path: string): Promise<string[]> {
  const status = await stat(path).catch((error: unknown) => {
    throw describeSystemError(`Cannot read ${path}`, error);
  });
  if (!status.isDirectory()) return [path];
  const names = await readdir(path);
  if (names.includes('parts')) return partsIn(join(path, 'parts'));
  const parts = names.filter((name) => /^[^.].*\.(parquet|jsonl)$/i.test(name)).sort();
  if (parts.length === 0)
    throw new InputError(`${path} holds no part of an audit`, 'name a store, or the parts themselves');
  return parts.map((name) => join(path, name));
}
