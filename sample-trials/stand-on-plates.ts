import type { C3dGroup } from '../src/core/c3d/read-c3d.ts';
import type { C3dAnalogContents } from '../src/core/c3d/write-c3d.ts';
import type { Vec3 } from '../src/core/geometry/vector.ts';
import { channelValues, type FloorPlate, recordPlates } from './force-plates.ts';
import { type MarkerPositions, markerLabel, outwardSign, SIDES, type Side } from './landmarks.ts';
import { type Recording, toLab } from './record-trial.ts';
import type { SeededRandom } from './seeded-random.ts';

/** What stands in planted.json of a person on plates. */
export interface OnPlates {
  readonly massKg: number;
  /** Share of the weight on the right foot. */
  readonly rightShare: number;
  /** First and last frame in which nobody stands on them, from 1. */
  readonly emptyFrames: readonly [number, number];
  readonly plates: readonly { readonly side: Side; readonly type: number; readonly centreMm: Vec3 }[];
}

const GRAVITY = 9.80665;
const SAMPLES_PER_FRAME = 2;
const EMPTY_FRAMES = [1, 10] as const;
/** The person steps in with the right foot first (see record-trial.ts) and takes the weight over in a tenth of a second. */
const LANDS_SECONDS: Readonly<Record<Side, number>> = { right: 0.5, left: 1.05 };
const TAKES_OVER_SECONDS = 0.1;
/** Idle channels read a little of something, and every sample has noise: N, and Nmm for the moments. */
const DRIFT = { force: 6, moment: 900 } as const;
const NOISE = { force: 0.8, moment: 200 } as const;
/** Where the foot presses, from the heel marker toward the forefoot marker and inward of that line (from memory). */
const PRESSES = { alongShare: 0.42, inwardMm: 18 } as const;
const PLATE = { lengthMm: 500, widthMm: 400, gapMm: 6, behindHeelMm: 100 } as const;

/** Lets a plate into the floor under each foot and records what the person does to it. The lab's Z is up. */
export function standOnPlates(
  positions: MarkerPositions,
  massKg: number,
  rightShare: number,
  recording: Recording,
  frameCount: number,
  random: SeededRandom,
): { analog: C3dAnalogContents; groups: C3dGroup[]; planted: OnPlates } {
  const inLab = (forward: number, left: number): Vec3 => toLab([forward, left, 0], recording);
  const heelsForward = Math.min(...SIDES.map((side) => positions.get(markerLabel(side, 'HEEL'))![0]));
  const plates = SIDES.map((side): FloorPlate => {
    const outward = outwardSign(side);
    return {
      // The left foot's plate is of the kind that comes with a calibration matrix.
      type: side === 'right' ? 2 : 4,
      middle: inLab(
        heelsForward - PLATE.behindHeelMm + PLATE.lengthMm / 2,
        (outward * (PLATE.gapMm + PLATE.widthMm)) / 2,
      ),
      x: [0, 1, 0],
      y: [1, 0, 0],
      lengthMm: PLATE.widthMm,
      widthMm: PLATE.lengthMm,
      origin: [0.6, -1.2, -41],
      ...(side === 'right' ? {} : { calibration: CALIBRATION }),
    };
  });
  const centres = SIDES.map((side): Vec3 => {
    const [heel, forefoot] = [positions.get(markerLabel(side, 'HEEL'))!, positions.get(markerLabel(side, 'MET5'))!];
    const inward = -outwardSign(side) * PRESSES.inwardMm;
    const along = (axis: 0 | 1) => heel[axis] + PRESSES.alongShare * (forefoot[axis] - heel[axis]);
    return inLab(along(0), along(1) + inward);
  });

  const noiseOf = (channel: number, sizes: { force: number; moment: number }) =>
    random.bell(channel % 6 < 3 ? sizes.force : sizes.moment);
  const drift = Array.from({ length: 12 }, (_, channel) => noiseOf(channel, DRIFT));
  const rows = Array.from({ length: frameCount * SAMPLES_PER_FRAME }, (_, row) => {
    const time = row / SAMPLES_PER_FRAME / recording.rateHz;
    const upwardN = forces(time, massKg * GRAVITY, rightShare);
    const values = plates.flatMap((plate, i) =>
      channelValues(plate, { forceN: [0.01 * upwardN[i]!, 0, upwardN[i]!], atMm: centres[i]! }),
    );
    return values.map((value, channel) => value + drift[channel]! + noiseOf(channel, NOISE));
  });
  return {
    ...recordPlates(plates, rows, SAMPLES_PER_FRAME, EMPTY_FRAMES),
    planted: {
      massKg,
      rightShare,
      emptyFrames: EMPTY_FRAMES,
      plates: SIDES.map((side, i) => ({ side, type: plates[i]!.type, centreMm: centres[i]! })),
    },
  };
}

/** Upward forces on the right and the left plate: nobody, then the right foot alone, then both. */
function forces(time: number, weightN: number, rightShare: number): [number, number] {
  const taken = (side: Side) => Math.min(1, Math.max(0, (time - LANDS_SECONDS[side]) / TAKES_OVER_SECONDS));
  const left = (1 - rightShare) * taken('left');
  return [weightN * (taken('right') - left), weightN * left];
}

/** Close to one, with the cross-talk of a few per cent that such sheets list. */
const CALIBRATION = [
  [1.02, 0.01, -0.004, 0, 0, 0],
  [-0.006, 0.99, 0.008, 0, 0, 0],
  [0.004, -0.003, 1.01, 0, 0, 0],
  [-3, 8, 4, 1.01, 0.002, -0.004],
  [-6, 2, 9, -0.003, 0.98, 0.006],
  [2, -5, 1, 0.004, -0.002, 1.03],
];
