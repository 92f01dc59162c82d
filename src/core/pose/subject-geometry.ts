import type { Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Lookup, RuleSpec } from '../rule-kinds/rule-kind.ts';
import { measuredMm } from '../session/measured.ts';
import type { Session } from '../session/session.ts';
import { type BodyAxes, bodyAxesFrom } from './body-axes.ts';
import type { PlacingStep } from './placing-step.ts';
import { segmentStep, setAxes } from './segment-axes.ts';
import { type ViewKnowledge, viewStep } from './views.ts';
import { virtualPointStep } from './virtual-points.ts';

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
  const steps: PlacingStep[] = [];
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
