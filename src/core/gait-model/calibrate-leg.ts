import { distance, type Vec3 } from '../geometry/vector.ts';
import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Session } from '../session/session.ts';
import { footAsMarked, footTakenFlat } from './foot-line.ts';
import { type Frame, segmentFrame } from './frame.ts';
import { type JointReaders, jointReaders, readJoint, standOffMm, widthBetweenMarkersMm } from './joint-by-markers.ts';
import {
  asisTrochanterDepth,
  jointWidth,
  legLength,
  type ModelMeasurement,
  usedStature,
} from './model-measurements.ts';
import { pointReader } from './point-reader.ts';
import { hipDefinition, readPelvis } from './read-pelvis.ts';

/** One leg at one moment: joint centres in mm, axes and the foot's line as unit vectors, in the markers' own axes. */
export interface Leg {
  readonly pelvis: Frame;
  readonly hip: Vec3;
  readonly knee: Vec3;
  readonly ankle: Vec3;
  readonly thigh: Frame;
  readonly shank: Frame;
  readonly foot: Vec3;
}

/** A leg of the model, ready to be read from marker positions. */
export interface CalibratedLeg {
  readonly measurements: readonly ModelMeasurement[];
  /** Markers (index * 3, mm, any right-handed axes) to a leg; null where one that it needs is not seen. */
  readonly read: (markers: Float64Array) => Leg | null;
}

/** Why a leg has no model in this trial. */
export interface LegWithoutModel {
  readonly lacking: string;
}

/** Measurements, static offsets and readers of one leg, from the standing trial. @param up the vertical, unit vector */
export function calibrateLeg(
  side: Side,
  set: MarkerSet,
  session: Session,
  standing: Float64Array,
  up: Vec3,
): CalibratedLeg | LegWithoutModel {
  const definition = set.model![side];
  const knee = jointReaders(definition.knee, set, standing);
  const ankle = jointReaders(definition.ankle, set, standing);
  const heel = pointReader(definition.foot.from, set, standing);
  const forefoot = pointReader(definition.foot.to, set, standing);
  if ('lacks' in knee) return notSeen(knee.lacks);
  if ('lacks' in ankle) return notSeen(ankle.lacks);
  if (heel === null) return notSeen(definition.foot.from);
  if (forefoot === null) return notSeen(definition.foot.to);

  const stature = usedStature(session, distance(knee.lateral(standing)!, ankle.lateral(standing)!));
  const hip = hipDefinition(definition.hipCentre, set);
  const leg = hip.method === 'hara-2016' || hip.method === 'davis-1991' ? legLength(side, session, stature) : null;
  const depth =
    leg !== null && hip.method === 'davis-1991' ? asisTrochanterDepth(side, session, leg.mm, stature) : null;
  const pelvis = readPelvis(hip, set, standing, leg?.mm ?? null, depth?.mm ?? null);
  if ('lacks' in pelvis) return notSeen(pelvis.lacks);

  const widthOf = (joint: 'knee' | 'ankle', readers: JointReaders): ModelMeasurement =>
    jointWidth(
      `${joint}Diameter`,
      side,
      session,
      widthBetweenMarkersMm(definition[joint], readers, set, standing),
      stature,
    );
  const kneeWidth = widthOf('knee', knee);
  const ankleWidth = widthOf('ankle', ankle);
  const halfMm = (joint: 'knee' | 'ankle', { mm }: ModelMeasurement): number =>
    mm / 2 + standOffMm(definition[joint].lateral, set);

  const hipNow = pelvis(standing)?.hip ?? null;
  if (hipNow === null) return meansNothing;
  const readKnee = readJoint(definition.knee, knee, halfMm('knee', kneeWidth), standing, hipNow);
  const kneeNow = readKnee?.(standing, hipNow)?.centre ?? null;
  if (readKnee === null || kneeNow === null) return meansNothing;
  const readAnkle = readJoint(definition.ankle, ankle, halfMm('ankle', ankleWidth), standing, kneeNow);
  const ankleNow = readAnkle?.(standing, kneeNow)?.centre ?? null;
  if (readAnkle === null || ankleNow === null) return meansNothing;
  const footLine = definition.foot.flat
    ? footTakenFlat(heel, forefoot, standing, ankleNow, up)
    : footAsMarked(heel, forefoot);
  if (footLine === null) return meansNothing;

  const read = (markers: Float64Array): Leg | null => {
    const base = pelvis(markers);
    if (base === null) return null;
    const kneeJoint = readKnee(markers, base.hip);
    const ankleJoint = kneeJoint && readAnkle(markers, kneeJoint.centre);
    if (kneeJoint === null || ankleJoint === null) return null;
    const thigh = segmentFrame(base.hip, kneeJoint.centre, kneeJoint.lateral, side);
    const shank = segmentFrame(kneeJoint.centre, ankleJoint.centre, ankleJoint.lateral, side);
    const foot = footLine(markers, ankleJoint.centre);
    if (thigh === null || shank === null || foot === null) return null;
    return { pelvis: base.frame, hip: base.hip, knee: kneeJoint.centre, ankle: ankleJoint.centre, thigh, shank, foot };
  };
  const measurements = [leg, depth, kneeWidth, ankleWidth].filter((one) => one !== null);
  return read(standing) === null ? meansNothing : { measurements, read };
}

function notSeen(name: string): LegWithoutModel {
  return { lacking: `not seen or not known: ${name}` };
}

const meansNothing: LegWithoutModel = { lacking: 'the markers lie so that the joint centres mean nothing' };
