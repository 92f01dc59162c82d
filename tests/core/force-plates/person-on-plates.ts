import { channelValues, type FloorPlate, recordPlates } from '../../../sample-trials/force-plates.ts';
import { type C3dFile, readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { type C3dContents, writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import type { FootMarkers } from '../../../src/core/force-plates/foot-outline.ts';
import type { StandingPerson } from '../../../src/core/force-plates/standing-person.ts';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';

/** Two plates side by side, x to the left and y forward for a person who faces +X, so that z points down. */
export function twoPlates(types: readonly [FloorPlate['type'], FloorPlate['type']]): [FloorPlate, FloorPlate] {
  const made = (type: FloorPlate['type'], left: number): FloorPlate => ({
    type,
    middle: [100, left, 0],
    x: [0, 1, 0],
    y: [1, 0, 0],
    lengthMm: 300,
    widthMm: 500,
    origin: type === 3 ? [110, 180, -45] : type === 1 ? [0, 0, 0] : [1.5, -2, -40],
    ...(type === 4 ? { calibration } : {}),
  });
  return [made(types[0], -155), made(types[1], 155)];
}

/** With cross-talk between its channels, as calibration sheets have it. */
const calibration = [
  [1.53, 0.01, 0.02, 0, 0, 0],
  [-0.01, 1.54, 0.01, 0, 0, 0],
  [0.05, -0.02, 5.99, 0, 0, 0],
  [-4, 17, 13, 1.7, 0.01, 0],
  [-5, 5, 13, 0.02, 1.6, 0],
  [3, -10, 5, 0, 0, 1.2],
];

export const rightFoot: FootMarkers = { side: 'right', heel: [0, -120, 40], forefoot: [180, -150, 40] };
export const leftFoot: FootMarkers = { side: 'left', heel: [0, 120, 40], forefoot: [180, 150, 40] };
/** Inside the feet. */
export const centres: readonly [Vec3, Vec3] = [
  [70, -118, 0],
  [85, 125, 0],
];
export const gravity = 9.80665;

export interface Stand {
  readonly plates: readonly FloorPlate[];
  readonly massKg: number;
  readonly rightShare: number;
  /** frames, 40 in all, from which the person stands on the plates; 0: from the beginning */
  readonly from?: number;
  readonly zeroFrames?: readonly [number, number];
  /** what idle channels read, in their units */
  readonly drift?: number;
  readonly centres?: readonly [Vec3, Vec3];
  /** stores what the person does to the plates */
  readonly asAction?: boolean;
  readonly contents?: Partial<C3dContents>;
}

const frames = 40;
const samplesPerFrame = 3;

/** A file with somebody on two plates, with a little horizontal force that cancels between the feet. */
export function onPlates(stand: Stand): C3dFile {
  const { plates, massKg, rightShare, from = 10, zeroFrames = [1, 8], drift = 0, asAction = false } = stand;
  const weight = massKg * gravity;
  const sign = asAction ? -1 : 1;
  const loaded = plates.flatMap((plate, i) =>
    channelValues(plate, {
      forceN: [sign * (i === 0 ? 9 : -9), sign * 4, sign * weight * (i === 0 ? rightShare : 1 - rightShare)],
      atMm: (stand.centres ?? centres)[i]!,
    }),
  );
  const idle = loaded.map(() => 0);
  const rows = Array.from({ length: frames * samplesPerFrame }, (_, row) =>
    (row >= from * samplesPerFrame ? loaded : idle).map((value) => value + drift),
  );
  const { analog, groups } = recordPlates(plates, rows, samplesPerFrame, zeroFrames);
  const contents: C3dContents = {
    rateHz: 100,
    units: 'mm',
    labels: ['C7'],
    pointCount: 1,
    frameCount: frames,
    values: new Float32Array(frames * 4),
    analog,
    groups,
  };
  return readC3d(writeC3d({ ...contents, ...stand.contents }));
}

export const standing: StandingPerson = {
  run: { first: 15, count: 20 },
  up: [0, 0, 1],
  millimetresPerUnit: 1,
  feet: [rightFoot, leftFoot],
  massKg: null,
  supported: false,
};
