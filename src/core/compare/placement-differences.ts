import { fitRigidly, moved, movedBack, type RigidMotion } from '../geometry/rigid-fit.ts';
import { dot, length, subtract, type Vec3 } from '../geometry/vector.ts';
import type { MarkerDefinition } from '../marker-set/marker-set.ts';
import { markerPositions } from '../pose/marker-positions.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { at } from '../rule-kinds/positions.ts';
import { type SegmentMarkers, segmentMarkers } from './segment-markers.ts';

/** Where a marker sits on its segment in one capture against another. */
export interface PlacementDifference {
  readonly marker: string;
  readonly segment: string;
  /** Along the segment's own directions, from the first capture to the second; mm. */
  readonly mm: { readonly forward: number; readonly up: number; readonly outward: number };
  readonly distanceMm: number;
  /** Two careful placings of such a marker seldom differ by so much (1.96 sqrt 2 of the hand's scatter). */
  readonly beyondHand: boolean;
}

const none: ReadonlySet<string> = new Set();
/** So many markers of the segment itself hold it without those that a step asked to move. */
const fewestHolding = 3;
const rounds = 12;
/** Under this a marker counts in full; mm. */
const softeningMm = 2;

/**
 * How each marker sits on its segment now against before. The segment's markers are brought onto each other as one rigid
 * body, so that posture does not count; a marker that moved by itself draws little, since each counts by the inverse of
 * what it is off (least absolute differences by reweighting). With few markers on a segment what one is off is shared by
 * the others, and where all were placed anew nothing holds still: then these are differences between markers.
 * @param loose markers that a step asked to move: they hold nothing, where three others of their segment do
 */
export function placementDifferences(
  before: StandingBody,
  now: StandingBody,
  loose: ReadonlySet<string> = none,
): PlacementDifference[] {
  const then = markerPositions(before);
  const today = markerPositions(now);
  const both = new Map([...then].filter(([label]) => today.has(label)));
  return segmentMarkers(before.set, both).flatMap((segment) => differencesOn(segment, both, today, before, loose));
}

/**
 * How far a marker that was to be moved did so on its segment, forward, left, up of the body in the first capture, mm; null
 * where fewer than three others of its segment hold it.
 */
export function looseShift(
  before: StandingBody,
  now: StandingBody,
  marker: string,
  loose: ReadonlySet<string>,
): Vec3 | null {
  const then = markerPositions(before);
  const today = markerPositions(now);
  const both = new Map([...then].filter(([label]) => today.has(label)));
  const segment = segmentMarkers(before.set, both).find(({ own }) => own.includes(marker));
  if (segment === undefined || !holdsWithout(segment, loose)) return null;
  return laidOn(segment, both, today, loose).off[segment.own.indexOf(marker)]!;
}

function holdsWithout({ own }: SegmentMarkers, loose: ReadonlySet<string>): boolean {
  return own.filter((label) => !loose.has(label)).length >= fewestHolding;
}

/**
 * The body of the second capture as it would stand with each marker where it sat on its segment in the first. What differs
 * from the first is posture then, and what differs from the second is placement. Markers that one of them lacks, or whose
 * segment nothing holds, stay.
 * @returns marker positions in lab axes, mm
 */
export function placedAsBefore(
  before: StandingBody,
  now: StandingBody,
  loose: ReadonlySet<string> = none,
): Float64Array {
  const then = markerPositions(before);
  const today = markerPositions(now);
  const both = new Map([...then].filter(([label]) => today.has(label)));
  const lab = now.lab.slice();
  const { forward, left, up } = now.geometry.axes(now.lab);
  for (const segment of segmentMarkers(before.set, both)) {
    const { motion } = laidOn(segment, both, today, loose);
    for (const label of segment.own) {
      const [f, l, u] = subtract(movedBack(motion, then.get(label)!), today.get(label)!);
      const index = now.set.markers.findIndex((marker) => marker.label === label);
      for (let i = 0; i < 3; i++) lab[index * 3 + i]! += f * forward[i]! + l * left[i]! + u * up[i]!;
    }
  }
  return lab;
}

/** The motion that lays a segment as it is now onto itself as it was, and what each marker is off then; own first. */
function laidOn(
  markers: SegmentMarkers,
  then: ReadonlyMap<string, Vec3>,
  today: ReadonlyMap<string, Vec3>,
  loose: ReadonlySet<string>,
): { motion: RigidMotion; off: Vec3[] } {
  const labels = [...markers.own, ...markers.lent];
  const withoutLoose = holdsWithout(markers, loose);
  const holds = labels.map((label) => (withoutLoose && loose.has(label) ? 0 : 1));
  const to = labels.map((label) => then.get(label)!);
  const from = labels.map((label) => today.get(label)!);
  let motion = fitRigidly(from, to, holds);
  let off: Vec3[] = [];
  for (let round = 0; round < rounds; round++) {
    off = from.map((point, index) => subtract(moved(motion, point), to[index]!));
    if (round === rounds - 1) break;
    motion = fitRigidly(
      from,
      to,
      off.map((by, index) => holds[index]! / Math.max(softeningMm, length(by))),
    );
  }
  return { motion, off };
}

function differencesOn(
  markers: SegmentMarkers,
  then: ReadonlyMap<string, Vec3>,
  today: ReadonlyMap<string, Vec3>,
  body: StandingBody,
  loose: ReadonlySet<string>,
): PlacementDifference[] {
  const { segment, own } = markers;
  const { off } = laidOn(markers, then, today, loose);
  return own.map((label, index) => {
    const marker = body.set.markers.find((one) => one.label === label)!;
    const [forward, up, outward] = (['forward', 'up', 'outward'] as const).map((axis) => {
      const slot = body.geometry.lookup.axis(segment, axis, marker.side);
      const turned = axis === 'outward' && marker.side === 'right' && isMiddle(body, segment) ? -1 : 1;
      return turned * dot(off[index]!, at(body.positions, slot));
    }) as [number, number, number];
    const mm = { forward, up, outward };
    return { marker: label, segment, mm, distanceMm: length(off[index]!), beyondHand: isBeyondHand(marker, mm) };
  });
}

/** Outward on a segment of the midline is to the left. */
function isMiddle(body: StandingBody, segment: string): boolean {
  return body.set.segments.find(({ name }) => name === segment)!.side === 'midline';
}

function isBeyondHand({ scatterMm }: MarkerDefinition, mm: PlacementDifference['mm']): boolean {
  return (['forward', 'up', 'outward'] as const).some(
    (axis) => Math.abs(mm[axis]) > 1.96 * Math.SQRT2 * scatterMm[axis],
  );
}
