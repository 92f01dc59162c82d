import type { Leg } from '../gait-model/calibrate-leg.ts';
import { direction, distance, length, squareTo, subtract, type Vec3 } from '../geometry/vector.ts';
import type { MarkerDefinition, MarkerSet } from '../marker-set/marker-set.ts';
import { at, degreesPerRadian } from '../rule-kinds/positions.ts';
import type { KneeCrosstalk } from './crosstalk.ts';

type Found = Omit<KneeCrosstalk, 'says' | 'advice'>;

/** One leg in the static trial. */
export interface StandingKnee {
  /** Marker positions: index marker * 3, mm. */
  readonly markers: Float64Array;
  /** In the same axes. */
  readonly leg: Leg;
}

const degrees = (value: number): string => {
  const rounded = Math.round(Math.abs(value));
  return rounded === 1 ? '1 degree' : `${rounded} degrees`;
};
const way = (turnDeg: number): string => (turnDeg > 0 ? 'outward' : 'inward');

/** What the movement shows, and whether the standing trial says the same: one or two sentences. */
export function sayKnee({ side, turnDeg, staticTurnDeg, varusDeg, agreement }: Found): string {
  const turned = `The marked axis of the ${side} knee is turned ${degrees(turnDeg)} ${way(turnDeg)} from the one about which the knee bends`;
  const still = `${degrees(staticTurnDeg)} ${way(staticTurnDeg)}`;
  switch (agreement) {
    case 'clear':
      return `The ${side} knee bends about the axis as it is marked, as near as this can tell.`;
    case 'agrees':
      return `${turned}; the standing trial found ${still}: both say the same.`;
    case 'only-moving':
      return `${turned}; the standing trial shows nothing of it.`;
    case 'only-static':
      return `The standing trial finds the axis of the ${side} knee turned ${still}, and the bending knee does not show it.`;
    case 'differs':
      return `${turned}, but the standing trial found ${still}: the two contradict each other.`;
    case 'other-cause':
      return `Varus-valgus of the ${side} knee moves over ${degrees(varusDeg.most - varusDeg.least)} while it bends, and no turn of the axis takes most of that away: a marker that slides or hides, or the knee itself.`;
  }
}

/** What to do before the markers come off; empty where there is nothing to do. */
export function adviceFor(knee: Found, set: MarkerSet, standing: StandingKnee): string {
  const { agreement, side } = knee;
  switch (agreement) {
    case 'clear':
      return '';
    case 'agrees':
    case 'only-moving':
      return adjust(knee, set, standing);
    case 'only-static':
      return `Look at the markers of the ${side} knee again before moving any: ${knee.staticMarkers.join(', ')}.`;
    case 'differs':
      return `Move nothing yet: palpate the ${side} knee again, look along its own axis, then repeat the static trial and the knee bend.`;
    case 'other-cause':
      return `Look at the trajectories of the ${side} leg, and watch its wand while the knee bends; repeat the knee bend.`;
  }
}

/** A wand set by eye is turned; landmarks are palpated again and stay where the bone is. */
function adjust({ side, turnDeg }: Found, set: MarkerSet, { markers, leg }: StandingKnee): string {
  const { lateral, medial, wand, axisFrom } = set.model![side].knee;
  const marker = (label: string) => set.markers.find((one) => one.label === label)!;
  const place = (label: string) => at(markers, set.markers.findIndex((one) => one.label === label) * 3);
  const outer = marker(lateral);
  const turnRad = Math.abs(turnDeg) / degreesPerRadian;
  if (axisFrom === 'wand' && wand !== null) {
    const called = marker(wand);
    const tipMm = 2 * fromLine(place(wand), place(lateral), leg.hip) * Math.sin(turnRad / 2);
    const along = toward(called, turnDeg > 0 ? 'forward' : 'backward');
    return `Palpate the ${side} ${outer.called} first: the wand is judged against it. Then turn the ${side} ${called.called} by ${degrees(turnDeg)} ${along}: about ${Math.round(tipMm)} mm at its tip. Repeat the static trial and the knee bend.`;
  }
  const inner = medial === null ? '' : ` and ${marker(medial).called}`;
  const widthMm = medial === null ? 2 * distance(place(lateral), leg.knee) : distance(place(lateral), place(medial));
  const [outerWay, innerWay] = turnDeg > 0 ? ['backward', 'forward'] : ['forward', 'backward'];
  return `Palpate the ${side} ${outer.called}${inner} again: together they are about ${Math.round(widthMm * Math.sin(turnRad))} mm off, the outer one too far ${outerWay} or the inner one too far ${innerWay}. On the bone a marker stays. Repeat the static trial and the knee bend.`;
}

/** Distance of a point from the line through two others, mm. */
function fromLine(point: Vec3, from: Vec3, to: Vec3): number {
  const along = direction(subtract(to, from));
  return along === null ? 0 : length(squareTo(subtract(point, from), along));
}

function toward({ toward: words }: MarkerDefinition, direction: 'forward' | 'backward'): string {
  const said = words[direction];
  return said === undefined ? direction : `${direction}, ${said}`;
}
