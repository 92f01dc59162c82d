import type { C3dContents } from '../src/core/c3d/write-c3d.ts';
import type { Vec3 } from '../src/core/geometry/vector.ts';
import type { MarkerPositions } from './landmarks.ts';
import type { SeededRandom } from './seeded-random.ts';

/** Frames in which a marker is hidden from the cameras. */
export interface HiddenFrames {
  readonly label: string;
  /** Counted from 0. */
  readonly from: number;
  readonly frames: number;
}

export interface Recording {
  readonly rateHz: number;
  readonly seconds: number;
  readonly vertical: '+Z' | '+Y';
  readonly units: 'mm' | 'm';
  /** Where the person faces: turned from the first horizontal lab axis, counter-clockwise seen from above. */
  readonly headingDeg: number;
  /** Where the body axes' origin stands, along the two horizontal lab axes of a lab whose Z is up. */
  readonly standsAtMm: readonly [number, number];
  readonly motion: 'quiet' | 'step-in' | 'restless';
  readonly hidden: readonly HiddenFrames[];
}

/** What the pendulum is built from, body axes, millimetres. */
export interface SwayingBody {
  readonly ankleForwardMm: number;
  readonly ankleHeightMm: number;
  readonly massCentreHeightMm: number;
}

export interface RecordedTrial {
  /** Ready to be written; points in the order of the labels. */
  readonly contents: C3dContents;
  /** First frame, counted from 0, from which nothing but quiet sway is left; null for a person who is never still. */
  readonly stillFromFrame: number | null;
}

/**
 * Quiet standing, centre of pressure, root mean square: 4 to 6 mm forward and back, 2 to 4 mm sideways (from memory), all
 * below 0.5 Hz. That is over half a minute; the few seconds recorded here show a part of it.
 */
const SWAY_FORWARD_RMS_MM = 5;
const SWAY_SIDEWAYS_RMS_MM = 3;
const SWAY_FREQUENCIES_HZ = [0.06, 0.13, 0.21, 0.3, 0.39, 0.48];
const CAMERA_NOISE_SD_MM = 0.1;
/** Residuals are stored in steps of this size, with one bit for each of the five cameras that saw the marker. */
const RESIDUAL_STEP_MM = 0.01;
const FIVE_CAMERAS = 0x1f00;
const STEP_LENGTH_MM = 380;
const STEP_IN_SECONDS = 1.2;
/** After stepping in, the sway of arriving has died down to well under a millimetre by then. */
const SETTLED_SECONDS = 2.6;
const FEET = new Set(['HEEL', 'MET5', 'MET2']);

/**
 * Films a standing person: the body sways as an inverted pendulum over its ankles, more the higher a marker sits, while the
 * feet stand still; cameras add noise. Averaged over the still frames, every marker is where `positions` has it.
 *
 * A label of `labels` without a position is written as a point that was never seen.
 * @param positions marker centres in body axes, millimetres
 */
export function recordTrial(
  positions: MarkerPositions,
  labels: readonly string[],
  body: SwayingBody,
  recording: Recording,
  random: SeededRandom,
): RecordedTrial {
  const frameCount = Math.round(recording.rateHz * recording.seconds);
  const times = Array.from({ length: frameCount }, (_, frame) => frame / recording.rateHz);
  const stillFrom = stillFromFrame(recording);
  const forward = swaySeries(times, SWAY_FORWARD_RMS_MM, stillFrom ?? 0, random);
  const sideways = swaySeries(times, SWAY_SIDEWAYS_RMS_MM, stillFrom ?? 0, random);

  const values = new Float32Array(frameCount * labels.length * 4);
  const perUnit = recording.units === 'm' ? 0.001 : 1;
  for (let frame = 0; frame < frameCount; frame += 1) {
    labels.forEach((label, point) => {
      const at = (frame * labels.length + point) * 4;
      const stand = positions.get(label);
      if (stand === undefined || isHidden(recording.hidden, label, frame)) {
        values.set([0, 0, 0, -1], at);
        return;
      }
      const swayed = sway(stand, label, body, forward[frame]!, sideways[frame]!);
      const moved = move(swayed, stand, label, body, times[frame]!, recording);
      const noisy = moved.map((component) => component + random.bell(CAMERA_NOISE_SD_MM)) as Vec3;
      const residualMm = 0.4 + Math.abs(random.bell(0.15));
      const residualWord = FIVE_CAMERAS + Math.min(255, Math.round(residualMm / RESIDUAL_STEP_MM));
      values.set([...toLab(noisy, recording).map((mm) => mm * perUnit), residualWord], at);
    });
  }
  return {
    contents: {
      rateHz: recording.rateHz,
      units: recording.units,
      labels,
      pointCount: labels.length,
      frameCount,
      values,
      scale: RESIDUAL_STEP_MM * perUnit,
      screen: { x: '+X', y: recording.vertical },
    },
    stillFromFrame: stillFrom,
  };
}

/** Body axes to lab axes: turned about the vertical, set down where the person stands; Y up is the same room tipped over. */
export function toLab([forward, left, up]: Vec3, recording: Recording): Vec3 {
  const heading = (recording.headingDeg * Math.PI) / 180;
  const x = recording.standsAtMm[0] + forward * Math.cos(heading) - left * Math.sin(heading);
  const y = recording.standsAtMm[1] + forward * Math.sin(heading) + left * Math.cos(heading);
  return recording.vertical === '+Z' ? [x, y, up] : [x, up, -y];
}

function stillFromFrame(recording: Recording): number | null {
  if (recording.motion === 'restless') return null;
  return recording.motion === 'step-in' ? Math.round(SETTLED_SECONDS * recording.rateHz) : 0;
}

/** Slow sway in millimetres at the height of the mass centre; its mean over the still frames is 0. */
function swaySeries(times: readonly number[], rmsMm: number, from: number, random: SeededRandom): number[] {
  const waves = SWAY_FREQUENCIES_HZ.map((hz) => ({ hz, phase: random.between(0, 2 * Math.PI), size: 1 / (hz + 0.15) }));
  const power = waves.reduce((sum, wave) => sum + wave.size ** 2 / 2, 0);
  const raw = times.map((time) =>
    waves.reduce((sum, wave) => sum + wave.size * Math.sin(2 * Math.PI * wave.hz * time + wave.phase), 0),
  );
  const scaled = raw.map((value) => (value * rmsMm) / Math.sqrt(power));
  const still = scaled.slice(from);
  const mean = still.reduce((sum, value) => sum + value, 0) / still.length;
  return scaled.map((value) => value - mean);
}

/** 0 at the ankles and on the feet, 1 at the mass centre, more above it. */
function leverage(stand: Vec3, label: string, body: SwayingBody): number {
  if (FEET.has(landmarkOf(label))) return 0;
  return Math.max(0, (stand[2] - body.ankleHeightMm) / (body.massCentreHeightMm - body.ankleHeightMm));
}

/** The pendulum: turned forward about the ankles; sideways the two legs move as a parallelogram. */
function sway(stand: Vec3, label: string, body: SwayingBody, forwardMm: number, leftMm: number): Vec3 {
  const lever = leverage(stand, label, body);
  if (lever === 0) return stand;
  const lean = Math.asin(forwardMm / (body.massCentreHeightMm - body.ankleHeightMm));
  const ahead = stand[0] - body.ankleForwardMm;
  const above = stand[2] - body.ankleHeightMm;
  return [
    body.ankleForwardMm + ahead * Math.cos(lean) + above * Math.sin(lean),
    stand[1] + leftMm * lever,
    body.ankleHeightMm - ahead * Math.sin(lean) + above * Math.cos(lean),
  ];
}

function move(swayed: Vec3, stand: Vec3, label: string, body: SwayingBody, time: number, recording: Recording): Vec3 {
  const lever = leverage(stand, label, body);
  if (recording.motion === 'step-in') return stepIn(swayed, label, lever, time);
  if (recording.motion === 'restless') return fidget(swayed, label, lever, time);
  return swayed;
}

/** One step and its closing step from behind, then the sway of arriving dies down. Simplified: no one should judge it. */
function stepIn(from: Vec3, label: string, lever: number, time: number): Vec3 {
  const stride = (start: number, end: number): { behind: number; lift: number } => {
    const share = Math.min(1, Math.max(0, (time - start) / (end - start)));
    const eased = share * share * (3 - 2 * share);
    return { behind: -STEP_LENGTH_MM * (1 - eased), lift: 60 * Math.sin(Math.PI * share) ** 2 };
  };
  const trunk = stride(0, STEP_IN_SECONDS);
  const foot = label.startsWith('R_') ? stride(0.05, 0.5) : stride(0.6, 1.05);
  const carried = Math.min(1, lever);
  const sinceArrival = Math.max(0, time - STEP_IN_SECONDS);
  const arriving = time < STEP_IN_SECONDS ? 0 : 12 * Math.sin(2 * Math.PI * 0.8 * sinceArrival);
  return [
    from[0] + carried * trunk.behind + (1 - carried) * foot.behind + lever * arriving * Math.exp(-sinceArrival / 0.35),
    from[1],
    from[2] + (1 - carried) * foot.lift,
  ];
}

/** Weight going round from foot to foot, the trunk turning with it, and once the right foot slides. Never at rest. */
function fidget(from: Vec3, label: string, lever: number, time: number): Vec3 {
  const round = 2 * Math.PI * (0.85 * time + 0.05 * Math.sin(2 * Math.PI * 0.31 * time));
  const size = 1 + 0.15 * Math.sin(2 * Math.PI * 0.23 * time);
  const turn = ((5 * Math.PI) / 180) * Math.sin(2 * Math.PI * 0.45 * time + 2) * Math.min(1.3, lever);
  const slideShare = Math.min(1, Math.max(0, (time - 1.5) / 0.4));
  const slideMm = label.startsWith('R_') ? 14 * slideShare * slideShare * (3 - 2 * slideShare) : 0;
  return [
    from[0] * Math.cos(turn) -
      from[1] * Math.sin(turn) +
      lever * 17 * size * Math.sin(round) +
      Math.max(0, 1 - lever) * slideMm,
    from[0] * Math.sin(turn) + from[1] * Math.cos(turn) + lever * 18 * size * Math.cos(round),
    from[2],
  ];
}

function isHidden(hidden: readonly HiddenFrames[], label: string, frame: number): boolean {
  return hidden.some((gap) => gap.label === label && frame >= gap.from && frame < gap.from + gap.frames);
}

function landmarkOf(label: string): string {
  return label.replace(/^[RL]_/, '');
}
