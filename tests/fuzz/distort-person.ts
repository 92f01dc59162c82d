import { type C3dContents, writeC3d } from '../../src/core/c3d/write-c3d.ts';
import type { CaseRandom } from './case-random.ts';
import { hostileTexts } from './hostile-text.ts';
import { numberFormats, people, processors } from './seed-trials.ts';

const oddNumbers = [0, -0, 1, -1, 1e-40, 1e-12, 0.5, 1e6, 1e12, 1e30, 3.4e38, Number.NaN, Infinity, -Infinity];
const oddUnits = [
  'mm',
  'cm',
  'm',
  'in',
  'MM',
  'millimetres',
  'parsec',
  '',
  'mm\u001b[31m',
  '\u202emm',
  'm'.repeat(200),
];
const screens = ['+X', '-X', '+Y', '-Y', '+Z', '-Z', 'Z', '', '\u0007', '+Q'];

/**
 * A well-formed file of a person who cannot be: points that coincide, lie in a plane, fly away, are not numbers;
 * labels exchanged, repeated, hostile. Such files get past the reader and try the checks behind it.
 */
export function distortedPerson(random: CaseRandom): Uint8Array {
  const person = random.pick(people);
  const values = Float64Array.from(person.values);
  const labels = [...person.labels];
  const { pointCount } = person;
  for (let left = random.whole(5); left >= 0; left--) distortPoints(values, pointCount, random);
  for (let left = random.whole(4); left > 0; left--) distortLabels(labels, random);
  const contents: C3dContents = {
    ...person,
    labels: random.chance(0.05) ? labels.slice(0, random.whole(labels.length)) : labels,
    values,
    processor: random.pick(processors),
    numberFormat: random.pick(numberFormats),
    ...(random.chance(0.2) ? { units: random.pick(oddUnits) } : {}),
    ...(random.chance(0.1) ? { rateHz: random.pick([0, 1e-30, 1, 3.4e38, -5, null]) } : {}),
    ...(random.chance(0.2) ? { screen: { x: random.pick(screens), y: random.pick(screens) } } : {}),
    ...(random.chance(0.1) ? { firstFrame: random.pick([0, 65535, 70000, 4_000_000_000]) } : {}),
    ...(random.chance(0.1) ? { scale: random.pick([1e-30, 1e30, 0.1, 3.4e38]) } : {}),
  };
  try {
    return writeC3d(contents);
  } catch (error) {
    // The format cannot hold labels that long or numbers that large: nothing to read then.
    if (error instanceof RangeError) return writeC3d({ ...person, values });
    throw error;
  }
}

interface Points {
  readonly values: Float64Array;
  /** places in a frame of two points, which may be the same */
  readonly point: number;
  readonly other: number;
  readonly axis: number;
  readonly random: CaseRandom;
  /** with the place at which each frame starts */
  each(change: (at: number) => void): void;
  /** every coordinate anew */
  everywhere(change: (value: number, at: number) => number): void;
}

const distortions: readonly ((points: Points) => void)[] = [
  function coincide({ values, point, other, each }) {
    each((at) => values.copyWithin(at + point, at + other, at + other + 4));
  },
  function oddCoordinate({ values, point, axis, each, random }) {
    each((at) => {
      values[at + point + axis] = random.pick(oddNumbers);
    });
  },
  function oddResidual({ values, point, each, random }) {
    each((at) => {
      values[at + point + 3] = random.pick([-1, 0, 32767, -32768, Number.NaN, 1e30]);
    });
  },
  function anotherSize({ everywhere, random }) {
    const factor = 10 ** (random.whole(61) - 30);
    everywhere((value) => value * factor);
  },
  function flat({ everywhere, axis }) {
    everywhere((value, at) => (at % 4 === axis ? 0 : value));
  },
  function allAlike({ everywhere, random }) {
    const all = random.pick(oddNumbers);
    everywhere(() => all);
  },
  function mirrored({ everywhere, axis }) {
    everywhere((value, at) => (at % 4 === axis ? -value : value));
  },
  function farAway({ everywhere, random }) {
    const far = random.pick([1e4, 1e7, 1e12, -1e20]);
    everywhere((value) => value + far);
  },
  function oneLine({ values, everywhere }) {
    everywhere((_, at) => values[at - (at % 4)]!);
  },
  function exchanged({ values, point, other, each }) {
    each((at) => {
      const first = values.slice(at + point, at + point + 3);
      values.copyWithin(at + point, at + other, at + other + 3);
      values.set(first, at + other);
    });
  },
  function anywhere({ everywhere, random }) {
    everywhere(() => random.whole(2001) - 1000);
  },
  function shaken({ everywhere, random }) {
    everywhere((value) => value + random.whole(401) - 200);
  },
  function misplaced({ values, point, axis, each, random }) {
    const offset = random.whole(401) - 200;
    each((at) => {
      values[at + point + axis]! += offset;
    });
  },
  function onePoint({ values, other, everywhere }) {
    const [x, y, z] = values.slice(other, other + 3);
    everywhere((_, at) => [x!, y!, z!][at % 4]!);
  },
  function frameLost({ values, each, random, point }) {
    each((at) => {
      if (random.chance(0.5)) values.fill(-1, at, at + point + 4);
    });
  },
  function seldomSeen({ values, random }) {
    for (let at = 3; at < values.length; at += 4) if (random.chance(0.3)) values[at] = -1;
  },
  function upsideDown({ values, everywhere }) {
    let highest = 0;
    everywhere((value) => {
      highest = Math.max(highest, value);
      return value;
    });
    everywhere((value, at) => (at % 4 === 2 ? highest - value : values[at]!));
  },
];

function distortPoints(values: Float64Array, pointCount: number, random: CaseRandom): void {
  const each = (change: (at: number) => void) => {
    for (let at = 0; at < values.length; at += pointCount * 4) change(at);
  };
  const everywhere = (change: (value: number, at: number) => number) => {
    for (let at = 0; at < values.length; at++) if (at % 4 !== 3) values[at] = change(values[at]!, at);
  };
  const [point, other] = [random.whole(pointCount) * 4, random.whole(pointCount) * 4];
  random.pick(distortions)({ values, point, other, axis: random.whole(3), random, each, everywhere });
}

const relabellings: readonly ((labels: string[], here: number, there: number, random: CaseRandom) => void)[] = [
  (labels, here, _, random) => labels.splice(here, 1, random.pick(hostileTexts)),
  (labels, here, there) => labels.splice(here, 1, labels[there]!),
  (labels, here, there) => labels.splice(here, 1, ...labels.splice(there, 1, labels[here]!)),
  (labels, here, _, random) => labels.splice(here, 1, `${random.pick(hostileTexts).slice(0, 100)}:${labels[here]}`),
  (labels, here, _, random) => labels.splice(here, 1, `${labels[here]}${random.pick(hostileTexts).slice(0, 100)}`),
  (labels, here) => labels.splice(here, 1),
  (labels, here) => labels.splice(here, 1, labels[here]!.toLowerCase()),
];

function distortLabels(labels: string[], random: CaseRandom): void {
  random.pick(relabellings)(labels, random.whole(labels.length), random.whole(labels.length), random);
}
