import type { Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';

export type AxisName = '+X' | '-X' | '+Y' | '-Y' | '+Z' | '-Z';

export interface Vertical {
  readonly axis: AxisName;
  readonly up: Vec3;
  /** Height of the high markers above the low ones along that axis, in file units. */
  readonly bodyHeight: number;
  /** What the file's own screen parameters say, where it disagrees with the body. */
  readonly contradicts: string | null;
  /** The body does not stand along any axis of the laboratory. */
  readonly unclear: boolean;
}

const axisNames: readonly (readonly [AxisName, AxisName])[] = [
  ['+X', '-X'],
  ['+Y', '-Y'],
  ['+Z', '-Z'],
];

/** A person who leans by more than about 30 degrees does not tell which way is up. */
const leastAlignment = 0.85;

/**
 * Which lab axis is up: from the feet to the pelvis and trunk. The file's screen parameters are a hint that the body
 * is asked to confirm, because files exist that state them wrongly or not at all.
 * @returns null when neither body nor file tells.
 */
export function findVertical(means: Float64Array, set: MarkerSet, screenUp: string | null): Vertical | null {
  const low = middleOf(means, set, set.bodyAxes.low);
  const high = middleOf(means, set, set.bodyAxes.high);
  const stated = parseAxis(screenUp);
  if (low === null || high === null) return null;
  const rise: Vec3 = [high[0] - low[0], high[1] - low[1], high[2] - low[2]];
  const size = Math.hypot(...rise);
  if (!(size > 0)) return null;
  let longest = 0;
  for (let axis = 1; axis < 3; axis++) if (Math.abs(rise[axis]!) > Math.abs(rise[longest]!)) longest = axis;
  const clear = Math.abs(rise[longest]!) / size >= leastAlignment;
  const axis = !clear && stated !== null ? stated : axisNames[longest]![rise[longest]! > 0 ? 0 : 1];
  const up = unitAxis(axis);
  return {
    axis,
    up,
    bodyHeight: rise[0] * up[0] + rise[1] * up[1] + rise[2] * up[2],
    contradicts: stated !== null && stated !== axis ? stated : null,
    unclear: !clear,
  };
}

/** Middle of those markers of a group that are visible; null where none is. */
export function middleOf(means: Float64Array, set: MarkerSet, labels: readonly string[]): Vec3 | null {
  const sum: Vec3 = [0, 0, 0];
  let count = 0;
  for (const label of labels) {
    const at = set.markers.findIndex((marker) => marker.label === label) * 3;
    if (at < 0 || Number.isNaN(means[at]!)) continue;
    for (let axis = 0; axis < 3; axis++) sum[axis]! += means[at + axis]!;
    count += 1;
  }
  return count === 0 ? null : [sum[0] / count, sum[1] / count, sum[2] / count];
}

function parseAxis(text: string | null): AxisName | null {
  const match = /^\s*([+-]?)([XYZ])/i.exec(text ?? '');
  return match === null ? null : (`${match[1] === '-' ? '-' : '+'}${match[2]!.toUpperCase()}` as AxisName);
}

function unitAxis(axis: AxisName): Vec3 {
  const up: Vec3 = [0, 0, 0];
  up['XYZ'.indexOf(axis[1]!)] = axis[0] === '+' ? 1 : -1;
  return up;
}
