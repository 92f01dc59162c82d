import type { Joint } from '../gait-model/standing-angles.ts';
import type { MarkerSet, SideOrMiddle } from '../marker-set/marker-set.ts';
import { reportAngles } from '../report/report-angles.ts';
import type { StudyCapture } from './study-capture.ts';

/** One joint angle in standing. */
export interface AngleName {
  readonly joint: Joint;
  readonly motion: string;
  readonly side: SideOrMiddle;
}

/** The same in every capture, degrees; null where the markers did not give it. */
export interface AngleValues extends AngleName {
  readonly values: readonly (number | null)[];
}

/** Joint angles in standing by the set's lower-body model; none where it names no model. */
export function angleValues(set: MarkerSet, captures: readonly StudyCapture[]): AngleValues[] {
  const told = captures.map(({ body, recorded }) => reportAngles(body, set, recorded)?.values ?? []);
  const names = new Map(
    told.flat().map(({ joint, motion, side }) => [keyOf({ joint, motion, side }), { joint, motion, side }]),
  );
  return [...names].map(([key, name]) => ({
    ...name,
    values: told.map((angles) => angles.find((angle) => keyOf(angle) === key)?.deg ?? null),
  }));
}

/** One text for each angle: `hip.rotation.right`. */
export function keyOf({ joint, motion, side }: AngleName): string {
  return `${joint}.${motion}.${side}`;
}
