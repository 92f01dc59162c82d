import { checkTrial } from '../core/check-trial.ts';
import type { Norms } from '../core/decision/norms.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import { emptySession, type Session } from '../core/session/session.ts';
import { hexadecimal, sha256 } from '../page/sha256.ts';
import { withLimits } from './change-limits.ts';
import type {
  CheckAnswer,
  CheckOrder,
  NamedMarkerSet,
  PracticeAnswer,
  PracticeOrder,
  ShippedFile,
} from './messages.ts';
import { comparePlacings } from './practice/compare-placings.ts';
import { PracticeDesk } from './practice/practice-desk.ts';
import { recordOf, signOff } from './practice/record-desk.ts';

interface MarkedSet {
  readonly set: LoadedMarkerSet;
  readonly norms: Norms | null;
}

/** Why an order cannot be carried out, and which of its files is at fault. */
class Refusal extends Error {
  readonly refused: 'marker-set' | 'session';

  constructor(refused: 'marker-set' | 'session', cause: unknown) {
    super(cause instanceof Error ? cause.message : String(cause), { cause });
    this.refused = refused;
  }
}

/** Fetched when the page opens, so that the first trial finds everything at hand. */
const shippedFile: Promise<ShippedFile> = fetch(new URL('../shipped.json', self.location.href)).then((response) =>
  response.json(),
);
const shipped: Promise<ReadonlyMap<string, MarkedSet>> = shippedFile.then(({ sets }) => {
  const marked = sets as readonly MarkedSet[];
  return new Map(marked.map((one) => [one.set.name, one]));
});
const desk = new PracticeDesk();

self.onmessage = async ({ data }: MessageEvent<(CheckOrder | PracticeOrder) & { number: number }>) => {
  self.postMessage('path' in data ? await answer(data) : { number: data.number, ...(await practise(data)) });
};

async function practise(order: PracticeOrder): Promise<PracticeAnswer> {
  try {
    if ('verdict' in order) return desk.answer(order.verdict);
    if ('record' in order) return recordOf(order.record, (await markedSet(order.record)).set);
    if ('signOff' in order) return signOff(order.signOff, (await markedSet(order.signOff)).set);
    if ('repeat' in order) return await comparePlacings(order.repeat, (await markedSet(order.repeat)).set, hashOf);
    const { adult } = await shippedFile;
    const marked = await markedSet(order.begin);
    return await desk.begin(
      order.begin,
      { ...marked, adult: new Map(Object.entries(adult).map(([label, [x, y, z]]) => [label, [x, y, z]])) },
      hashOf,
    );
  } catch (error) {
    return { failed: error instanceof Error ? error.message : String(error) };
  }
}

async function answer(order: CheckOrder): Promise<CheckAnswer> {
  const { number } = order;
  try {
    const { set, norms } = await markedSet(order);
    const session = await sessionOf(order);
    const source = { path: order.path, sha256: await hashOf(order.bytes) };
    const used = order.limits === null ? set : withLimits(set, order.limits);
    return { number, report: checkTrial(order.bytes, used, session, source, norms) };
  } catch (error) {
    const refused = error instanceof Refusal ? error.refused : 'check';
    return { number, refused, message: error instanceof Error ? error.message : String(error) };
  }
}

/** Those that ship come spelt out; a dropped one goes through every check, whose validators are loaded only then. */
async function markedSet({ markerSet }: { readonly markerSet: NamedMarkerSet }): Promise<MarkedSet> {
  const known = await shipped;
  if ('name' in markerSet) return known.get(markerSet.name)!;
  const { parseMarkerSet } = await import('../core/marker-set/parse-marker-set.ts');
  const hash = await hashOf(new TextEncoder().encode(markerSet.text));
  const same = [...known.values()].find(({ set }) => set.sha256 === hash);
  if (same) return same;
  try {
    return { set: parseMarkerSet(markerSet.text, hash), norms: null };
  } catch (error) {
    throw new Refusal('marker-set', error);
  }
}

async function sessionOf({ session }: CheckOrder): Promise<Session> {
  if (session === null) return emptySession;
  const { parseSession } = await import('../core/session/parse-session.ts');
  try {
    return parseSession(session);
  } catch (error) {
    throw new Refusal('session', error);
  }
}

/** The browser's own where it gives one, which is faster; it does so only for pages from a secure address. */
async function hashOf(bytes: Uint8Array): Promise<string> {
  if (globalThis.crypto?.subtle === undefined) return hexadecimal(sha256(bytes));
  return hexadecimal(new Uint8Array(await crypto.subtle.digest('SHA-256', bytes as Uint8Array<ArrayBuffer>)));
}
