import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildSample } from '../sample-trials/build-samples.ts';
import { SAMPLES } from '../sample-trials/sample-list.ts';
import { writeC3d } from '../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../src/core/check-trial.ts';
import { parseMarkerSet } from '../src/core/marker-set/parse-marker-set.ts';
import { parseSession } from '../src/core/session/parse-session.ts';
import { emptySession } from '../src/core/session/session.ts';
import { median } from './interleave.ts';
import type { Row } from './row.ts';

const trialCount = 1000;
const perSample = 8;

/**
 * A thousand checks of trials like the sample trials, over other people: every sample's fault on eight of them. The
 * figure counts the processor time of all threads of this process, so that it holds for one core.
 */
export function checkManyTrials(root: string): Row[] {
  const text = readFileSync(join(root, 'shared/marker-sets/lower-limb-wands-22.json'), 'utf8');
  const markerSet = parseMarkerSet(text, createHash('sha256').update(text).digest('hex'));
  const trials = SAMPLES.flatMap((sample) =>
    Array.from({ length: perSample }, (_, person) => {
      const { trial, session } = buildSample({ ...sample, seed: sample.seed + 10_000 * (person + 1) });
      return {
        bytes: writeC3d(trial.contents),
        session: session === null ? emptySession : parseSession(JSON.stringify(session)),
        source: { path: `${sample.name}.c3d`, sha256: '' },
      };
    }),
  );
  const checkAll = () => {
    for (let index = 0; index < trialCount; index++) {
      const { bytes, session, source } = trials[index % trials.length]!;
      checkTrial(bytes, markerSet, session, source);
    }
  };
  checkAll();
  const wall: number[] = [];
  const processor: number[] = [];
  for (let round = 0; round < 5; round++) {
    const start = performance.now();
    const used = process.cpuUsage();
    checkAll();
    const { user, system } = process.cpuUsage(used);
    wall.push(performance.now() - start);
    processor.push((user + system) / 1000);
  }
  const perSecond = trialCount / (median(processor) / 1000);
  const frames = trials.map(({ bytes }) => bytes.byteLength).reduce((sum, size) => sum + size, 0) / trials.length;
  return [
    {
      what: `1,000 trials of ${(frames / 1024).toFixed(0)} KB in the mean, ${trials.length} different ones, checked in full (${(median(wall) / 1000).toFixed(2)} s by the clock)`,
      figure: `${(median(processor) / trialCount).toFixed(2)} ms each`,
      value: perSecond,
      target: { sense: 'at least', value: 500, unit: 'a second on one core' },
    },
  ];
}
