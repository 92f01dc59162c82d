import { distance, type Vec3 } from '../geometry/vector.ts';
import type { MarkerDefinition, MarkerSet } from '../marker-set/marker-set.ts';
import type { ModelJointDefinition } from '../marker-set/model-definition.ts';
import { jointCentre, medialByMarker, medialByWand, turnAbout, turnBetween } from './joint-centre.ts';
import { pointReader, type ReadPoint } from './point-reader.ts';

/** The points of a knee or an ankle as the standing trial shows them. */
export interface JointReaders {
  readonly lateral: ReadPoint;
  readonly medial: ReadPoint | null;
  readonly wand: ReadPoint | null;
}

/** A joint's centre and its lateral marker, read from marker positions and the centre above. */
export type ReadJoint = (markers: Float64Array, above: Vec3) => { centre: Vec3; lateral: Vec3 } | null;

/** @returns a sentence where the standing trial does not show what the joint needs */
export function jointReaders(
  joint: ModelJointDefinition,
  set: MarkerSet,
  standing: Float64Array,
): JointReaders | { readonly lacks: string } {
  const read = (name: string | null): ReadPoint | null => (name === null ? null : pointReader(name, set, standing));
  const lateral = read(joint.lateral);
  if (lateral === null) return { lacks: joint.lateral };
  const medial = read(joint.medial);
  const wand = read(joint.wand);
  const axis = joint.axisFrom === 'wand' ? wand : medial;
  if (axis === null) return { lacks: (joint.axisFrom === 'wand' ? joint.wand : joint.medial)! };
  return { lateral, medial, wand };
}

/** From the surface of the joint to the marker centres on it: radius of a marker and its base plate, mm. */
export function standOffMm(label: string, set: MarkerSet): number {
  const { diameterMm, baseThicknessMm } = markerOf(label, set);
  return diameterMm / 2 + baseThicknessMm;
}

/** Width of the joint between its two markers in the standing trial, mm; null where one of them is not on. */
export function widthBetweenMarkersMm(
  joint: ModelJointDefinition,
  { lateral, medial }: JointReaders,
  set: MarkerSet,
  standing: Float64Array,
): number | null {
  const outer = lateral(standing);
  const inner = medial?.(standing) ?? null;
  if (outer === null || inner === null) return null;
  return distance(outer, inner) - standOffMm(joint.lateral, set) - standOffMm(joint.medial!, set);
}

/**
 * Reader of a joint, with its static offset: by how much the wand is turned about the line from the lateral marker to
 * the centre above against the axis that the medial marker gave in the standing trial; none where the wand itself is
 * the axis. Where there is no wand, the medial marker is read again each time.
 * @param halfMm half the width of the joint with marker radius and base plate
 * @param above centre of the joint above in the standing trial
 * @returns null where wand or medial marker lie on that line
 */
export function readJoint(
  joint: ModelJointDefinition,
  { lateral, medial, wand }: JointReaders,
  halfMm: number,
  standing: Float64Array,
  above: Vec3,
): ReadJoint | null {
  const outer = lateral(standing)!;
  const byMedial = medial === null ? null : medialByMarker(above, outer, medial(standing)!);
  const byWand = wand === null ? null : medialByWand(above, outer, wand(standing)!);
  let offsetRad = 0;
  if (joint.axisFrom === 'medial') {
    if (byMedial === null) return null;
    if (byWand !== null) offsetRad = turnBetween(above, outer, byWand, byMedial);
  } else if (byWand === null) return null;
  const inward = byWand === null ? medialByMarker : medialByWand;
  const axis = byWand === null ? medial! : wand!;
  return (markers, aboveNow) => {
    const outerNow = lateral(markers);
    const axisNow = axis(markers);
    if (outerNow === null || axisNow === null) return null;
    const square = inward(aboveNow, outerNow, axisNow);
    if (square === null) return null;
    const centre = jointCentre(aboveNow, outerNow, turnAbout(aboveNow, outerNow, square, offsetRad), halfMm);
    return centre === null ? null : { centre, lateral: outerNow };
  };
}

function markerOf(label: string, set: MarkerSet): MarkerDefinition {
  return set.markers.find((marker) => marker.label === label)!;
}
