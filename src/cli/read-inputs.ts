import type { Norms } from '../core/decision/norms.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import { ownName } from '../core/report/own-name.ts';
import type { Session } from '../core/session/session.ts';
import { readMarkerSetFile } from '../node/read-marker-set-file.ts';
import { readShippedNorms } from '../node/read-norms-file.ts';
import { readTextFile } from '../node/read-text-file.ts';
import type { CheckEngine } from './engine.ts';
import { UsageError } from './usage-error.ts';

/**
 * Reads a marker set by name or path.
 * @throws {InputError} where it cannot be read; {UsageError} with the file's name where it is refused. So do the others.
 */
export async function readMarkerSet(engine: CheckEngine, nameOrPath: string): Promise<LoadedMarkerSet> {
  const { text, sha256 } = await readMarkerSetFile(nameOrPath);
  return inFile(nameOrPath, async () => engine.parseMarkerSet(text, sha256));
}

/** Reads a session; one in which nothing was recorded where no path is given. */
export async function readSession(engine: CheckEngine, path: string | undefined): Promise<Session> {
  if (path === undefined) return engine.emptySession;
  const { text } = await readTextFile(path, `session ${ownName(path)}`);
  return inFile(path, async () => engine.parseSession(text));
}

/** Norms that were given, which must be for this set; else those that ship for it, where it is as it shipped. */
export async function readNorms(
  engine: CheckEngine,
  markerSet: LoadedMarkerSet,
  path: string | undefined,
): Promise<Norms | null> {
  if (path === undefined) {
    const shipped = await readShippedNorms(markerSet.name);
    return shipped?.markerSet.sha256 === markerSet.sha256 ? shipped : null;
  }
  const { text } = await readTextFile(path, `norms ${ownName(path)}`);
  return inFile(path, async () => engine.parseNorms(text, markerSet));
}

/** A fault in a marker set, session or norms, told with the name of its file. */
export async function inFile<Result>(path: string, parse: () => Promise<Result>): Promise<Result> {
  try {
    return await parse();
  } catch (error) {
    if (!(error instanceof Error) || !('pointer' in error)) throw error;
    const pointer = String(error.pointer);
    const place = pointer === '' || pointer === '/' || error.message.includes(pointer) ? '' : `at ${pointer}: `;
    throw new UsageError(`${ownName(path)}: ${place}${error.message}`, { cause: error });
  }
}
