import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { ownName } from '../../core/report/own-name.ts';
import { readMarkerSetFile } from '../../node/read-marker-set-file.ts';
import type { Engine } from '../engine.ts';
import { UsageError } from '../usage-error.ts';

/**
 * Reads a marker set by name or path.
 * @throws {InputError} where it cannot be read; {UsageError} with the file's name where it is refused.
 */
export async function readMarkerSet(nameOrPath: string, engine: Engine): Promise<LoadedMarkerSet> {
  const { text, sha256 } = await readMarkerSetFile(nameOrPath);
  const { parseMarkerSet } = await engine.check();
  try {
    return await parseMarkerSet(text, sha256);
  } catch (error) {
    if (!(error instanceof Error) || !('pointer' in error)) throw error;
    throw new UsageError(`${ownName(nameOrPath)}: ${error.message}`, { cause: error });
  }
}
