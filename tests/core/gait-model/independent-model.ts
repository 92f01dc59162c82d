/**
 * The conventional lower-body model once more, written apart from the source for tests to compare with: joint centres by
 * bisection, angles by the joint coordinate system of Grood and Suntay (1983, J Biomech Eng 105:136-144, from memory),
 * plain arrays throughout. Right leg only; forward, left, up; millimetres, degrees.
 */
export type P = readonly [number, number, number];

export interface RightLegMarkers {
  readonly rightAsis: P;
  readonly leftAsis: P;
  readonly back: P;
  readonly thighWand: P;
  readonly epicondyle: P;
  readonly shankWand: P;
  readonly malleolus: P;
  readonly heel: P;
  readonly forefoot: P;
}

export interface LegSizes {
  readonly halfKneeMm: number;
  readonly halfAnkleMm: number;
  /** Hip centre from the middle of the ASIS in the pelvis's own axes; the regression is not what is tested here. */
  readonly hipOffset: (widthMm: number, depthMm: number) => { forward: number; up: number; outward: number };
}

const minus = (a: P, b: P): P => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];
const plus = (a: P, b: P, times = 1): P => [a[0] + times * b[0], a[1] + times * b[1], a[2] + times * b[2]];
const inner = (a: P, b: P): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const size = (a: P): number => Math.sqrt(inner(a, a));
const norm = (a: P): P => [a[0] / size(a), a[1] / size(a), a[2] / size(a)];
const outer = (a: P, b: P): P => [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
const half = (a: P, b: P): P => [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2, (a[2] + b[2]) / 2];
const turned = 180 / Math.PI;

/** Walks round the lateral marker in the plane of the three points until the angle at the centre is a right one. */
function centre(above: P, marker: P, wand: P, halfMm: number): P {
  const u = norm(minus(above, marker));
  const toWand = minus(wand, marker);
  const inward = norm(plus([0, 0, 0], plus(toWand, u, -inner(toWand, u)), -1));
  const at = (angle: number): P => plus(plus(marker, u, halfMm * Math.cos(angle)), inward, halfMm * Math.sin(angle));
  let [low, high] = [0, Math.PI / 2];
  for (let round = 0; round < 80; round += 1) {
    const middle = (low + high) / 2;
    const c = at(middle);
    if (inner(minus(above, c), minus(marker, c)) < 0) low = middle;
    else high = middle;
  }
  return at(low);
}

/** [forward, left, up] */
type Axes = readonly [P, P, P];

function segment(upper: P, lower: P, lateral: P): Axes {
  const up = norm(minus(upper, lower));
  const forward = norm(outer(minus(lower, lateral), up));
  return [forward, outer(up, forward), up];
}

/** Rotation about the upper left axis, the floating axis and the lower up axis, right-handed. */
function groodSuntay(upper: Axes, lower: Axes): readonly [number, number, number] {
  const floating = norm(outer(upper[1], lower[2]));
  const aboutLeft = -Math.asin(inner(floating, upper[2])) * turned;
  const between = Math.acos(inner(upper[1], lower[2])) * turned;
  const aboutUp = Math.asin(inner(floating, lower[1])) * turned;
  return [aboutLeft, between - 90, -aboutUp];
}

export const angleNames = [
  'pelvis tilt',
  'pelvis obliquity',
  'pelvis rotation',
  'hip flexion',
  'hip adduction',
  'hip rotation',
  'knee flexion',
  'knee varus',
  'knee rotation',
  'ankle dorsiflexion',
  'ankle rotation',
  'foot progression',
] as const;
export type AngleName = (typeof angleNames)[number];

/** Where the model has the right leg. */
export function independentLeg(m: RightLegMarkers, sizes: LegSizes) {
  const left = norm(minus(m.leftAsis, m.rightAsis));
  const up = norm(outer(left, minus(m.back, m.rightAsis)));
  const forward = outer(left, up);
  const middle = half(m.rightAsis, m.leftAsis);
  const offset = sizes.hipOffset(size(minus(m.leftAsis, m.rightAsis)), size(minus(middle, m.back)));
  const hip = plus(plus(plus(middle, forward, offset.forward), up, offset.up), left, -offset.outward);
  const knee = centre(hip, m.epicondyle, m.thighWand, sizes.halfKneeMm);
  const ankle = centre(knee, m.malleolus, m.shankWand, sizes.halfAnkleMm);
  const thigh = segment(hip, knee, m.epicondyle);
  const shank = segment(knee, ankle, m.malleolus);
  return { pelvisAxes: [forward, left, up] as Axes, knee, thigh, shank, foot: norm(minus(m.forefoot, m.heel)) };
}

/** The markers of shank and foot turned about an axis through a point, right-handed. */
export function bentBelow(m: RightLegMarkers, point: P, axis: P, deg: number): RightLegMarkers {
  const [c, s] = [Math.cos(deg / turned), Math.sin(deg / turned)];
  const turn = (p: P): P => {
    const v = minus(p, point);
    const along = plus([0, 0, 0], axis, inner(v, axis));
    const square = minus(v, along);
    return plus(plus(plus(point, along), square, c), outer(axis, square), s);
  };
  return {
    ...m,
    shankWand: turn(m.shankWand),
    malleolus: turn(m.malleolus),
    heel: turn(m.heel),
    forefoot: turn(m.forefoot),
  };
}

/** Angles of a right leg against room axes forward, left, up. */
export function independentAngles(m: RightLegMarkers, sizes: LegSizes): Record<AngleName, number> {
  const { pelvisAxes, thigh, shank, foot } = independentLeg(m, sizes);
  const room: Axes = [
    [1, 0, 0],
    [0, 1, 0],
    [0, 0, 1],
  ];
  const pelvis = groodSuntay(room, pelvisAxes);
  const hipAngles = groodSuntay(pelvisAxes, thigh);
  const kneeAngles = groodSuntay(thigh, shank);
  return {
    'pelvis tilt': pelvis[0],
    'pelvis obliquity': -pelvis[1],
    'pelvis rotation': pelvis[2],
    'hip flexion': -hipAngles[0],
    'hip adduction': hipAngles[1],
    'hip rotation': hipAngles[2],
    'knee flexion': kneeAngles[0],
    'knee varus': kneeAngles[1],
    'knee rotation': kneeAngles[2],
    'ankle dorsiflexion': Math.atan2(inner(foot, shank[2]), inner(foot, shank[0])) * turned,
    'ankle rotation': (Math.PI / 2 - Math.acos(inner(foot, shank[1]))) * turned,
    'foot progression': -Math.atan2(foot[1], foot[0]) * turned,
  };
}
