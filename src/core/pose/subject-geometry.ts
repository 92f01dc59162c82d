import type { MarkerSet, SegmentDefinition, SideOrMiddle, ViewDefinition, VirtualPointDefinition } from '../marker-set/marker-set.ts';
import type { Vec3 } from '../geometry/vector.ts';
import { at, degreesPerRadian, outwardSign } from '../rule-kinds/positions.ts';
import type { Lookup, RuleSpec } from '../rule-kinds/rule-kind.ts';
import { measuredMm } from '../session/measured.ts';
import type { Session } from '../session/session.ts';
import { hipCentre } from './hip-centre.ts';
import { pelvisFrame } from './pelvis-frame.ts';

/** How a direction of view is known, and how far it may be off. */
export interface ViewKnowledge {
  readonly from: 'markers' | 'recorded' | 'estimate';
  readonly sdDeg: number;
}

/**
 * Everything that is computed from marker positions before a rule can be judged: body axes, virtual points,
 * directions of view, segment axes. Laid out once for a trial, then filled again and again from lab positions, so
 * that moved markers carry the frame and the joint centres with them.
 */
export interface SubjectGeometry {
  readonly lookup: Lookup;
  /** Numbers in the array that `place` fills. */
  readonly size: number;
  has(point: string): boolean;
  view(name: string): ViewKnowledge;
  /** Body axes in lab axes, for marker positions in lab axes. */
  axes(lab: Float64Array): BodyAxes;
  /** Fills `positions` (body axes, mm; see Lookup) from marker positions in lab axes, mm. */
  place(lab: Float64Array, positions: Float64Array): void;
}

export interface BodyAxes {
  readonly forward: Vec3;
  readonly left: Vec3;
  readonly up: Vec3;
  /** Middle of the ASIS dropped to the floor. */
  readonly origin: Vec3;
}

type Step = (x: Float64Array) => void;
const bodyAxisNames = ['forward', 'up', 'outward'] as const;

/**
 * @param means lab positions that tell which markers are visible (NaN where not)
 * @param up lab axis that is up
 * @param left0 left as the whole body tells it, used where one of the two markers of the levelled line is missing
 * @param floorUp height of the floor along `up`, mm
 */
export function layOutGeometry(
  set: MarkerSet,
  session: Session,
  means: Float64Array,
  up: Vec3,
  left0: Vec3,
  floorUp: number,
): SubjectGeometry {
  const slots = new Map<string, number>();
  const views = new Map<string, number>();
  const knowledge = new Map<string, ViewKnowledge>();
  const axisSlots = new Map<string, number>();
  const steps: Step[] = [];
  let size = set.markers.length * 3;
  const claim = (): number => {
    size += 3;
    return size - 3;
  };

  set.markers.forEach((marker, index) => {
    if (!Number.isNaN(means[index * 3]!)) slots.set(marker.label, index * 3);
  });
  for (const point of set.virtualPoints) {
    const slot = claim();
    const step = virtualPointStep(point, slot, slots, set, session);
    if (step === null) continue;
    slots.set(point.name, slot);
    steps.push(step);
  }
  for (const side of ['right', 'left', 'midline'] as const) {
    const slot = bodyAxisNames.map(() => claim()) as [number, number, number];
    bodyAxisNames.forEach((axis, index) => axisSlots.set(`/${side}/${axis}`, slot[index]!));
    steps.push((x) => setAxes(x, slot, 1, 0, 0, 0, 0, 1, side));
  }
  for (const view of set.views) {
    const slot = claim();
    const base =
      view.base === null
        ? { slot: axisSlots.get(`/${view.side}/outward`)!, sdDeg: 0 }
        : { slot: views.get(view.base)!, sdDeg: knowledge.get(view.base)!.sdDeg };
    const { step, known } = viewStep(view, slot, slots, base, session);
    views.set(view.name, slot);
    knowledge.set(view.name, known);
    steps.push(step);
  }
  for (const segment of set.segments) {
    const slot = bodyAxisNames.map(() => claim()) as [number, number, number];
    bodyAxisNames.forEach((axis, index) => axisSlots.set(`${segment.name}/${segment.side}/${axis}`, slot[index]!));
    steps.push(segmentStep(segment, slot, slots, views));
  }

  const rightAt = slots.get(set.bodyAxes.right);
  const leftAt = slots.get(set.bodyAxes.left);
  const axes = (lab: Float64Array): BodyAxes => bodyAxesFrom(lab, rightAt, leftAt, up, left0, floorUp);
  const place = (lab: Float64Array, x: Float64Array): void => {
    const { forward: f, left: l, up: u, origin: o } = axes(lab);
    for (let i = 0; i < set.markers.length * 3; i += 3) {
      const dx = lab[i]! - o[0];
      const dy = lab[i + 1]! - o[1];
      const dz = lab[i + 2]! - o[2];
      x[i] = dx * f[0] + dy * f[1] + dz * f[2];
      x[i + 1] = dx * l[0] + dy * l[1] + dz * l[2];
      x[i + 2] = dx * u[0] + dy * u[1] + dz * u[2];
    }
    for (const step of steps) step(x);
  };

  const lookup: Lookup = {
    point: (name) => slots.get(name)!,
    view: (name) => views.get(name)!,
    axis: (segment, axis, side) => axisSlots.get(axisKey(segment, axis, side, set))!,
    statureMm: measuredMm(session, 'stature', null),
  };
  return { lookup, size, has: (point) => slots.has(point), view: (name) => knowledge.get(name)!, axes, place };
}

function axisKey(segment: string | null, axis: string, side: RuleSpec['side'], set: MarkerSet): string {
  if (segment === null) return `/${side === 'both' ? 'midline' : side}/${axis}`;
  const own = set.segments.find((candidate) => candidate.name === segment)!;
  return `${segment}/${own.side}/${axis}`;
}

function bodyAxesFrom(
  lab: Float64Array,
  rightAt: number | undefined,
  leftAt: number | undefined,
  up: Vec3,
  left0: Vec3,
  floorUp: number,
): BodyAxes {
  let left = left0;
  if (rightAt !== undefined && leftAt !== undefined) {
    const across = [lab[leftAt]! - lab[rightAt]!, lab[leftAt + 1]! - lab[rightAt + 1]!, lab[leftAt + 2]! - lab[rightAt + 2]!] as const;
    const rise = across[0] * up[0] + across[1] * up[1] + across[2] * up[2];
    const level: Vec3 = [across[0] - rise * up[0], across[1] - rise * up[1], across[2] - rise * up[2]];
    const length = Math.hypot(...level);
    if (length > 1) left = [level[0] / length, level[1] / length, level[2] / length];
  }
  const forward: Vec3 = [left[1] * up[2] - left[2] * up[1], left[2] * up[0] - left[0] * up[2], left[0] * up[1] - left[1] * up[0]];
  const ends = [rightAt, leftAt].filter((end) => end !== undefined);
  const origin: Vec3 = [0, 0, 0];
  for (const end of ends) for (let axis = 0; axis < 3; axis++) origin[axis]! += lab[end + axis]! / ends.length;
  const height = origin[0] * up[0] + origin[1] * up[1] + origin[2] * up[2];
  for (let axis = 0; axis < 3; axis++) origin[axis]! += (floorUp - height) * up[axis]!;
  return { forward, left, up, origin };
}

function virtualPointStep(
  point: VirtualPointDefinition,
  slot: number,
  slots: ReadonlyMap<string, number>,
  set: MarkerSet,
  session: Session,
): Step | null {
  switch (point.construct) {
    case 'midpoint': {
      const of = point.of.map((name) => slots.get(name));
      if (!of.every((source) => source !== undefined)) return null;
      return (x) => {
        for (let axis = 0; axis < 3; axis++) {
          let sum = 0;
          for (const source of of) sum += x[source + axis]!;
          x[slot + axis] = sum / of.length;
        }
      };
    }
    case 'first-of': {
      const source = point.of.map((name) => slots.get(name)).find((candidate) => candidate !== undefined);
      if (source === undefined) return null;
      return (x) => x.copyWithin(slot, source, source + 3);
    }
    case 'along-line': {
      const from = slots.get(point.from);
      const to = slots.get(point.to);
      if (from === undefined || to === undefined) return null;
      return (x) => {
        for (let axis = 0; axis < 3; axis++) {
          x[slot + axis] = x[from + axis]! + point.fraction * (x[to + axis]! - x[from + axis]!);
        }
      };
    }
    case 'hip-centre': {
      const right = slots.get(point.rightAsis);
      const left = slots.get(point.leftAsis);
      const back = slots.get(point.pelvisBack);
      if (right === undefined || left === undefined || back === undefined) return null;
      const legs = [measuredMm(session, 'legLength', 'right'), measuredMm(session, 'legLength', 'left')].filter((leg) => leg !== null);
      const asis = set.markers.find((marker) => marker.label === point.rightAsis);
      const known = {
        legLengthMm: legs.length === 0 ? null : legs.reduce((sum, leg) => sum + leg, 0) / legs.length,
        asisTrochanterDepthMm: measuredMm(session, 'asisTrochanterDepth', point.side),
        markerRadiusMm: (asis?.diameterMm ?? 0) / 2,
      };
      if (hipCentre(point.method, { pelvisWidthMm: 1, pelvisDepthMm: 1, ...known }) === null) return null;
      const outward = outwardSign(point.side);
      return (x) => {
        const r = at(x, right);
        const l = at(x, left);
        const b = at(x, back);
        const frame = pelvisFrame(r, l, b);
        const middle = [(r[0] + l[0]) / 2, (r[1] + l[1]) / 2, (r[2] + l[2]) / 2];
        const offset = hipCentre(point.method, {
          pelvisWidthMm: Math.hypot(l[0] - r[0], l[1] - r[1], l[2] - r[2]),
          pelvisDepthMm: Math.hypot(middle[0]! - b[0], middle[1]! - b[1], middle[2]! - b[2]),
          ...known,
        });
        for (let axis = 0; axis < 3; axis++) {
          x[slot + axis] =
            frame === null || offset === null
              ? Number.NaN
              : middle[axis]! + offset.forward * frame.forward[axis]! + offset.up * frame.up[axis]! + outward * offset.outward * frame.left[axis]!;
        }
      };
    }
  }
}

/** Direction from its two points; else turned outward from its base by what was recorded, or by what is usual. */
function viewStep(
  view: ViewDefinition,
  slot: number,
  slots: ReadonlyMap<string, number>,
  base: { readonly slot: number; readonly sdDeg: number },
  session: Session,
): { step: Step; known: ViewKnowledge } {
  const from = slots.get(view.from);
  const to = slots.get(view.to);
  if (from !== undefined && to !== undefined) {
    return {
      known: { from: 'markers', sdDeg: 0 },
      step: (x) => {
        const toward = unit(x[to]! - x[from]!, x[to + 1]! - x[from + 1]!, x[to + 2]! - x[from + 2]!);
        for (let axis = 0; axis < 3; axis++) x[slot + axis] = toward[axis]!;
      },
    };
  }
  const recorded = view.recordedAs === null ? null : session.facts[view.recordedAs][view.side];
  const turnRad = (recorded ?? view.estimate.turnDeg) / degreesPerRadian;
  const cosine = Math.cos(turnRad);
  // Outward turns the outer end back: clockwise seen from above on the right, the other way round on the left.
  const sine = outwardSign(view.side) * Math.sin(turnRad);
  return {
    known: {
      from: recorded === null ? 'estimate' : 'recorded',
      sdDeg: Math.hypot(recorded === null ? view.estimate.sdDeg : view.recordedSdDeg, base.sdDeg),
    },
    step: (x) => {
      const forward = x[base.slot]!;
      const left = x[base.slot + 1]!;
      const turned = unit(forward * cosine - left * sine, forward * sine + left * cosine, 0);
      for (let axis = 0; axis < 3; axis++) x[slot + axis] = turned[axis]!;
    },
  };
}

function segmentStep(
  segment: SegmentDefinition,
  slot: readonly [number, number, number],
  slots: ReadonlyMap<string, number>,
  views: ReadonlyMap<string, number>,
): Step {
  const longFrom = segment.longAxis === null ? undefined : slots.get(segment.longAxis.from);
  const longTo = segment.longAxis === null ? undefined : slots.get(segment.longAxis.to);
  const forwardFrom = segment.forward === null ? undefined : slots.get(segment.forward.from);
  const forwardTo = segment.forward === null ? undefined : slots.get(segment.forward.to);
  const view = segment.outward === null ? undefined : views.get(segment.outward);
  const sign = segment.side === 'right' ? -1 : 1;
  return (x) => {
    let up: Vec3 = [0, 0, 1];
    if (longFrom !== undefined && longTo !== undefined) {
      up = unit(x[longTo]! - x[longFrom]!, x[longTo + 1]! - x[longFrom + 1]!, x[longTo + 2]! - x[longFrom + 2]!);
    }
    let forward: Vec3 = [1, 0, 0];
    if (forwardFrom !== undefined && forwardTo !== undefined) {
      forward = unit(x[forwardTo]! - x[forwardFrom]!, x[forwardTo + 1]! - x[forwardFrom + 1]!, 0);
    } else if (view !== undefined) {
      // Left of the segment is its outward view on the left side, its opposite on the right.
      const left: Vec3 = [sign * x[view]!, sign * x[view + 1]!, sign * x[view + 2]!];
      forward = unit(left[1] * up[2] - left[2] * up[1], left[2] * up[0] - left[0] * up[2], left[0] * up[1] - left[1] * up[0]);
    }
    const along = forward[0] * up[0] + forward[1] * up[1] + forward[2] * up[2];
    forward = unit(forward[0] - along * up[0], forward[1] - along * up[1], forward[2] - along * up[2]);
    setAxes(x, slot, ...forward, ...up, segment.side);
  };
}

/** Writes forward, up and outward; left is up x forward. */
function setAxes(
  x: Float64Array,
  slot: readonly [number, number, number],
  fx: number,
  fy: number,
  fz: number,
  ux: number,
  uy: number,
  uz: number,
  side: SideOrMiddle,
): void {
  const sign = side === 'right' ? -1 : 1;
  x[slot[0]] = fx;
  x[slot[0] + 1] = fy;
  x[slot[0] + 2] = fz;
  x[slot[1]] = ux;
  x[slot[1] + 1] = uy;
  x[slot[1] + 2] = uz;
  x[slot[2]] = sign * (uy * fz - uz * fy);
  x[slot[2] + 1] = sign * (uz * fx - ux * fz);
  x[slot[2] + 2] = sign * (ux * fy - uy * fx);
}

function unit(x: number, y: number, z: number): Vec3 {
  const size = Math.sqrt(x * x + y * y + z * z);
  return [x / size, y / size, z / size];
}
