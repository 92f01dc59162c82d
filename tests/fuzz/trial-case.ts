import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { averagePoints } from '../../src/core/c3d/average-points.ts';
import { type C3dDescription, C3dError, type C3dFile, readC3d } from '../../src/core/c3d/read-c3d.ts';
import { forEachPointBlock, readPoints } from '../../src/core/c3d/read-points.ts';
import { checkTrial } from '../../src/core/check-trial.ts';
import { checkCrosstalk } from '../../src/core/crosstalk/check-crosstalk.ts';
import { crosstalkJson } from '../../src/core/crosstalk/crosstalk-json.ts';
import { formatCrosstalk } from '../../src/core/crosstalk/format-crosstalk.ts';
import type { Norms } from '../../src/core/decision/norms.ts';
import { parseNorms } from '../../src/core/decision/parse-norms.ts';
import { inspectTrial } from '../../src/core/inspect-trial.ts';
import { type LoadedMarkerSet, parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { formatJson } from '../../src/core/report/format-json.ts';
import { formatText } from '../../src/core/report/format-text.ts';
import { parseSession } from '../../src/core/session/parse-session.ts';
import { emptySession, type Session } from '../../src/core/session/session.ts';
import { standTrial } from '../../src/core/stand-trial.ts';
import { openTrialFile } from '../../src/node/trial-on-disk.ts';
import type { CaseRandom } from './case-random.ts';
import { damage } from './damage-bytes.ts';
import { distortedPerson } from './distort-person.ts';
import { hostileTexts } from './hostile-text.ts';
import { judgeFigures, judgeJson, judgePrinted } from './judge-output.ts';
import { cutTrials, seedTrials, smallTrials, wholeTrials } from './seed-trials.ts';

const text = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');

/** A marker set that ships, with the norms for it, as written and as read. */
export interface ShippedSet {
  readonly setText: string;
  readonly normsText: string;
  readonly set: LoadedMarkerSet;
  readonly norms: Norms;
}

export const shippedSets: readonly ShippedSet[] = ['lower-limb-wands-22', 'lower-limb-medial-20'].map((name) => {
  const setText = text(`shared/marker-sets/${name}.json`);
  const normsText = text(`shared/norms/${name}.json`);
  const set = parseMarkerSet(setText, createHash('sha256').update(setText).digest('hex'));
  return { setText, normsText, set, norms: parseNorms(normsText, set) };
});
export const sessionTexts = ['child-well-placed', 'supinated-foot'].map((name) =>
  text(`sample-trials/${name}.session.json`),
);
const sessions: readonly Session[] = [emptySession, ...sessionTexts.map(parseSession)];

/** The bytes of a case: most of them small files with damage, some of them people who cannot be. */
export function trialBytes(random: CaseRandom): Uint8Array {
  const kind = random.whole(200);
  if (kind < 30) return distortedPerson(random);
  if (kind < 80) return damage(random.pick(seedTrials), seedTrials, random);
  if (kind < 150) return damage(random.pick(smallTrials), seedTrials, random);
  if (kind < 199) return damage(random.pick(cutTrials), seedTrials, random);
  return damage(random.pick(wholeTrials), wholeTrials, random);
}

/** Reads and inspects; throws what is wrong with it. Returns what became of the file. */
export function tryFile(bytes: Uint8Array): 'refused' | 'read in part' | 'read' {
  const untouched = hashOf(bytes);
  let file: C3dFile | null = null;
  try {
    file = readC3d(bytes);
  } catch (error) {
    if (!(error instanceof C3dError)) throw error;
    judgePrinted(error.message, 'the C3dError');
  }
  if (file !== null) judgeFile(file, bytes);
  if (hashOf(bytes) !== untouched) throw new Error('the bytes of the file were changed');
  if (file === null) return 'refused';
  return file.truncated || file.frameCount === 0 ? 'read in part' : 'read';
}

/** The same, then checks and prints. */
export function tryTrial(bytes: Uint8Array, random: CaseRandom): 'refused' | Report['verdict'] {
  const file = tryFile(bytes);
  const untouched = hashOf(bytes);
  if (random.chance(0.02)) tryCrosstalk(bytes, random);
  const { set, norms } = random.pick(shippedSets);
  const report = checkAndPrint(bytes, set, random.pick(sessions), random.chance(0.7) ? norms : null, random);
  if (hashOf(bytes) !== untouched) throw new Error('the bytes of the file were changed');
  return file === 'refused' ? file : report.verdict;
}

type Report = ReturnType<typeof checkTrial>;

const knee = new URL('../../sample-trials/knee-bends/wand-forward.c3d', import.meta.url);
const kneeBend = new Uint8Array(readFileSync(knee));
const standing = new Uint8Array(readFileSync(new URL('../../sample-trials/wand-forward.c3d', import.meta.url)));

/** Bytes as a movement beside a good static trial, or the good movement beside them; throws what is wrong with it. */
function tryCrosstalk(bytes: Uint8Array, random: CaseRandom): void {
  const { set } = random.pick(shippedSets);
  const session = random.pick(sessions);
  const [moving, still] = random.chance(0.5) ? [bytes, standing] : [kneeBend, bytes];
  const stood = standTrial(still, set, session, null);
  const report = checkTrial(still, set, session, { path: 'static.c3d', sha256: '0'.repeat(64) });
  const crosstalk = checkCrosstalk(moving, stood, report, set, session);
  const heading = { trial: 'moving.c3d', static: 'static.c3d', markerSet: set.name };
  judgePrinted(
    formatCrosstalk(heading, crosstalk, { columns: 60 + random.whole(100), color: false }),
    'the cross-talk',
  );
  const source = { path: 'static.c3d', sha256: '0'.repeat(64) };
  judgePrinted(crosstalkJson(crosstalk, { trial: source, static: source }, set, session), 'the JSON of the cross-talk');
}

function judgeFile(file: C3dFile, bytes: Uint8Array): void {
  const { dataOffset, frameCount, frameStride, pointCount, warnings } = file;
  if (frameCount > 0 && dataOffset + frameCount * frameStride > bytes.length) {
    throw new Error(`${frameCount} frames of ${frameStride} bytes from ${dataOffset} in a file of ${bytes.length}`);
  }
  const { values } = readPoints(file);
  if (values.length !== frameCount * pointCount * 4) throw new Error('readPoints gives another size');
  for (const { message } of warnings) {
    judgePrinted(message, 'a warning of the reader');
    if (message.length > 600) throw new Error(`a warning of ${message.length} characters`);
  }
  const inspection = inspectTrial(bytes, 'trial.c3d');
  if (inspection.frames !== frameCount || inspection.points !== pointCount) throw new Error('inspect counts otherwise');
  for (const { mean, firstValid, validFrames } of inspection.markers) {
    if ((mean === null) !== (validFrames === 0) || (firstValid === null) !== (validFrames === 0)) {
      throw new Error(`${validFrames} valid frames and the mean ${mean}`);
    }
    if (![...(mean ?? []), ...(firstValid ?? [])].every(Number.isFinite)) throw new Error('a position is not finite');
  }
  for (const { label, mean } of inspection.analog.signals) {
    if (mean !== null && !Number.isFinite(mean)) throw new Error(`the mean of ${label} is ${mean}`);
  }
  for (const { reason } of inspection.plates) judgePrinted(reason, 'what is said of a plate');
  const averages = averagePoints(file);
  inspection.markers.forEach(({ mean, validFrames }, point) => {
    if (averages.validFrames[point] !== validFrames) throw new Error('averagePoints counts otherwise');
    const other = averages.means.subarray(point * 3, point * 3 + 3);
    if (mean === null || mean.every((value, axis) => Math.abs(value - other[axis]!) <= 1e-9)) return;
    // Sums taken in another order differ in the last digits of the largest number among them.
    let largest = 0;
    for (let at = point * 4; at < values.length; at += pointCount * 4) {
      for (const value of values.subarray(at, at + 3)) if (Math.abs(value) > largest) largest = Math.abs(value);
    }
    const near = (value: number, axis: number) => Math.abs(value - other[axis]!) <= 1e-12 * largest;
    if (!mean.every(near)) throw new Error(`the means ${mean} and ${other}`);
  });
}

/** A file read from disk a buffer at a time gives what it gives in memory, or the same refusal. */
export function tryOnDisk(bytes: Uint8Array, folder: string): void {
  const path = join(folder, 'on-disk.c3d');
  writeFileSync(path, bytes);
  const [there, here] = [summary(() => openTrialFile(path)), summary(() => inMemory(readC3d(bytes)))];
  if (there !== here) throw new Error(`from disk ${there.slice(0, 300)}, in memory ${here.slice(0, 300)}`);
}

interface Opened {
  readonly description: C3dDescription;
  forEachPointBlock(framesPerBlock: number, visit: (values: Float32Array, first: number, count: number) => void): void;
  close(): void;
}

function inMemory(file: C3dFile): Opened {
  const { bytes, ...description } = file;
  return {
    description,
    forEachPointBlock: (framesPerBlock, visit) => forEachPointBlock(file, framesPerBlock, visit),
    close: () => {},
  };
}

function summary(open: () => Opened): string {
  try {
    const trial = open();
    try {
      const blocks: number[][] = [];
      trial.forEachPointBlock(3, (values, first, count) => {
        blocks.push([first, count, hashOf(new Uint8Array(values.slice(0, 4000).buffer))]);
      });
      return JSON.stringify([trial.description, [...trial.description.groups.keys()], blocks.slice(0, 50)]);
    } finally {
      trial.close();
    }
  } catch (error) {
    if (error instanceof C3dError) return error.message;
    throw error;
  }
}

/** Checks a trial and prints it, as text or as JSON, in two cases of three. */
export function checkAndPrint(
  bytes: Uint8Array,
  set: LoadedMarkerSet,
  session: Session,
  norms: Norms | null,
  random: CaseRandom,
): Report {
  const frames = random.chance(0.1) ? { frames: oddFrames(random) } : {};
  const path = random.chance(0.1) ? random.pick(hostileTexts) : 'trial.c3d';
  const report = checkTrial(bytes, set, session, { path, sha256: '0'.repeat(64), ...frames }, norms);
  judgeFigures(report);
  const format = random.pick(['text', 'json', 'none']);
  const columns = 60 + random.whole(100);
  if (format === 'text') judgePrinted(formatText(report, { columns, color: false }), 'the text');
  if (format === 'json') judgeJson(formatJson([report]));
  return report;
}

function oddFrames(random: CaseRandom): { first: number; last: number } {
  const numbers = [0, 1, 2, 4, 5, 100, 65535, 70000, 70003, 9_999_999];
  const [first, last] = [random.pick(numbers), random.pick(numbers)].sort((a, b) => a - b);
  return { first: first!, last: last! };
}

/** Enough to see a change (FNV-1a over every byte). */
function hashOf(bytes: Uint8Array): number {
  let sum = 0x811c9dc5;
  for (let at = 0; at < bytes.length; at++) sum = Math.imul(sum ^ bytes[at]!, 0x01000193);
  return sum;
}
