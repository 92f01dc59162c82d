import { markerLabel, SIDES, type SideLandmark } from '../../sample-trials/landmarks.ts';
import type { SeededRandom } from '../../sample-trials/seeded-random.ts';
import { wandOffsetsMm, wandTip } from '../../sample-trials/wand.ts';
import { subtract, type Vec3 } from '../../src/core/geometry/vector.ts';
import type { LoadedMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { bodyFromPositions } from '../../src/core/pose/body-from-positions.ts';
import { slidesOf } from '../../src/core/pose/slides.ts';
import type { StandingBody } from '../../src/core/pose/standing-body.ts';
import { emptySession } from '../../src/core/session/session.ts';
import type { Displaced } from './faults.ts';
import { type Hand, palpatedSdMm } from './hands.ts';
import type { Person } from './population.ts';

/** How far the heels stand off the floor, or the shoe's heel above its sole; the heel marker is set against the sole. */
export interface RaisedHeels {
  readonly right: number;
  readonly left: number;
}

/**
 * Marks a person as an assessor does: landmarks by palpation, then wands and heels by eye on what is marked. Faults that
 * come before the markers set by eye carry those along; the others are planted when all markers are on.
 */
export function placeMarkers(
  set: LoadedMarkerSet,
  { landmarks, statureMm }: Person,
  hand: Hand,
  faults: readonly Displaced[],
  random: SeededRandom,
  raisedMm: RaisedHeels = { right: 0, left: 0 },
): Map<string, Vec3> {
  const marked = new Map(landmarks);
  setByEye(marked, statureMm, null, random, raisedMm);
  const body = bodyFromPositions(set, emptySession, (label) => marked.get(label))!;
  for (const marker of set.markers.filter(({ placedBy }) => placedBy === 'palpation')) {
    for (const { direction, vector } of slidesOf(body, marker)) {
      move(marked, marker.label, vector, random.bell(palpatedSdMm(hand, marker.label, direction)));
    }
  }
  plant(
    marked,
    body,
    faults.filter(({ before }) => before),
  );
  setByEye(marked, statureMm, hand, random, raisedMm);
  plant(
    marked,
    body,
    faults.filter(({ before }) => !before),
  );
  return marked;
}

/** Unit vector of a fault, body axes. */
export function wayOf(body: StandingBody, { label, slide }: Displaced): Vec3 {
  return slidesOf(body, body.set.markers.find((marker) => marker.label === label)!)[slide]!.vector;
}

function plant(marked: Map<string, Vec3>, body: StandingBody, faults: readonly Displaced[]): void {
  for (const fault of faults) move(marked, fault.label, wayOf(body, fault), fault.mm);
}

function move(marked: Map<string, Vec3>, label: string, [x, y, z]: Vec3, mm: number): void {
  const [a, b, c] = marked.get(label)!;
  marked.set(label, [a + mm * x, b + mm * y, c + mm * z]);
}

/** Wands and heels set by eye on the landmarks as they are marked; exactly so where no hand is given. */
function setByEye(
  marked: Map<string, Vec3>,
  statureMm: number,
  hand: Hand | null,
  random: SeededRandom,
  raisedMm: RaisedHeels,
): void {
  const offsets = wandOffsetsMm(statureMm);
  const drawn = (sd: number): number => (hand === null ? 0 : random.bell(sd));
  for (const side of SIDES) {
    const at = (landmark: SideLandmark): Vec3 => marked.get(markerLabel(side, landmark))!;
    const wand = (top: SideLandmark, bottom: SideLandmark, medial: SideLandmark, offsetMm: number): Vec3 =>
      wandTip({
        top: at(top),
        bottom: at(bottom),
        axis: subtract(at(bottom), at(medial)),
        side,
        offsetMm: offsetMm * (1 + drawn(0.05)),
        share: 0.5 + drawn(0.03),
        turnDeg: (drawn(hand?.wandMm ?? 0) / offsetMm) * (180 / Math.PI),
      });
    marked.set(markerLabel(side, 'TW'), wand('GT', 'LE', 'ME', offsets.thigh));
    marked.set(markerLabel(side, 'SW'), wand('HF', 'LM', 'MM', offsets.shank));
    const [forward, left] = at('HEEL');
    marked.set(markerLabel(side, 'HEEL'), [forward, left, at('MET5')[2] + raisedMm[side] + drawn(hand?.heelMm ?? 0)]);
  }
}
