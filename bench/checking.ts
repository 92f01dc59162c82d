import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { buildSample } from '../sample-trials/build-samples.ts';
import { describePerson } from '../sample-trials/person-description.ts';
import { placeByHand } from '../sample-trials/place-by-hand.ts';
import { SAMPLES } from '../sample-trials/sample-list.ts';
import { seededRandom } from '../sample-trials/seeded-random.ts';
import { standingPerson } from '../sample-trials/standing-person.ts';
import { writeC3d } from '../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../src/core/check-trial.ts';
import type { Norms } from '../src/core/decision/norms.ts';
import { weighMarkers } from '../src/core/decision/weigh-markers.ts';
import { parseMarkerSet } from '../src/core/marker-set/parse-marker-set.ts';
import { bodyFromPositions } from '../src/core/pose/body-from-positions.ts';
import { assessRules, isAssessed } from '../src/core/rules/assess-rules.ts';
import { expectedRules } from '../src/core/rules/expected-rules.ts';
import { parseSession } from '../src/core/session/parse-session.ts';
import { emptySession } from '../src/core/session/session.ts';
import { median } from './interleave.ts';
import { milliseconds, type Row } from './row.ts';

const trialCount = 1000;
const perSample = 8;
const weighings = 200;

function shipped(root: string) {
  const text = readFileSync(join(root, 'shared/marker-sets/lower-limb-wands-22.json'), 'utf8');
  const markerSet = parseMarkerSet(text, createHash('sha256').update(text).digest('hex'));
  const norms: Norms = JSON.parse(readFileSync(join(root, 'shared/norms/lower-limb-wands-22.json'), 'utf8'));
  return { markerSet, norms };
}

/**
 * Weighing which marker is off, on people of the sample trials: the very first one of this process, and the median once
 * warm. Call it before anything else has warmed up what it uses.
 */
export function weighOnce(root: string): Row[] {
  const { markerSet, norms } = shipped(root);
  const bodies = SAMPLES.filter(({ name }) => ['wand-forward', 'heel-low', 'sacral-high'].includes(name)).map(
    (sample) => {
      const { positions } = sample.plant(
        placeByHand(
          standingPerson(describePerson(sample.person, seededRandom(sample.seed))),
          seededRandom(sample.seed),
        ),
      );
      const body = bodyFromPositions(markerSet, emptySession, (label) => positions.get(label))!;
      const rules = expectedRules(markerSet, emptySession);
      return { body, assessed: assessRules(body, rules, emptySession).filter(isAssessed) };
    },
  );
  const times = Array.from({ length: weighings }, (_, index) => {
    const { body, assessed } = bodies[index % bodies.length]!;
    const start = performance.now();
    weighMarkers(body, assessed, norms, new Set());
    return performance.now() - start;
  });
  const limit = (value: number) => ({ sense: 'at most', value, unit: 'ms' }) as const;
  const warm = median(times.slice(weighings / 2));
  return [
    {
      what: 'weighing which marker is off, the first time',
      figure: milliseconds(times[0]!),
      value: times[0]!,
      target: limit(15),
    },
    { what: 'weighing which marker is off, warm', figure: milliseconds(warm), value: warm, target: limit(2.5) },
  ];
}

/**
 * A thousand checks of trials like the sample trials, over other people: every sample's fault on eight of them, by the
 * rules alone and with the weighing. The figure counts the processor time of all threads of this process, so that it
 * holds for one core.
 */
export function checkManyTrials(root: string): Row[] {
  const { markerSet, norms } = shipped(root);
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
  const size = trials.map(({ bytes }) => bytes.byteLength).reduce((sum, bytes) => sum + bytes, 0) / trials.length;
  const row = (how: string, weighBy: Norms | null, atLeast: number): Row => {
    const checkAll = () => {
      for (let index = 0; index < trialCount; index++) {
        const { bytes, session, source } = trials[index % trials.length]!;
        checkTrial(bytes, markerSet, session, source, weighBy);
      }
    };
    checkAll();
    const processor = Array.from({ length: 5 }, () => {
      const used = process.cpuUsage();
      checkAll();
      const { user, system } = process.cpuUsage(used);
      return (user + system) / 1000;
    });
    return {
      what: `1,000 trials of ${(size / 1024).toFixed(0)} KB in the mean, ${trials.length} different ones, checked ${how}`,
      figure: `${(median(processor) / trialCount).toFixed(2)} ms each`,
      value: trialCount / (median(processor) / 1000),
      target: { sense: 'at least', value: atLeast, unit: 'a second on one core' },
    };
  };
  return [row('in full, by the rules', null, 500), row('in full and weighed by norms', norms, 250)];
}
