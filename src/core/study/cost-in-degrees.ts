import { type StandingBody, withMarkersAt } from '../pose/standing-body.ts';
import { reportAngles } from '../report/report-angles.ts';
import type { Session } from '../session/session.ts';
import { type AngleName, keyOf } from './angle-values.ts';
import { displacedAlong } from './displaced-along.ts';
import type { PlacementDirection } from './placement-values.ts';

/** How far a joint angle in standing goes with a marker. */
export interface AngleCost extends AngleName {
  /** Mean over the subjects, without its sign; degrees. */
  readonly deg: number;
}

/** One capture of each subject. */
export type OfEachSubject = readonly { readonly body: StandingBody; readonly recorded: Session }[];

/**
 * What a marker's displacement along one direction of its segment does to the joint angles in standing: each subject's
 * body is calibrated as it stood and with the marker displaced. Largest first; empty where no angle is read from it.
 */
export function costInDegrees(
  subjects: OfEachSubject,
  marker: string,
  segment: string,
  direction: PlacementDirection,
  mm: number,
): AngleCost[] {
  const sums = new Map<string, AngleName & { sum: number }>();
  for (const { body, recorded } of subjects) {
    if (!body.geometry.has(marker)) continue;
    const after =
      reportAngles(withMarkersAt(body, displacedAlong(body, marker, segment, direction, mm)), body.set, recorded)
        ?.values ?? [];
    for (const { joint, motion, side, deg } of reportAngles(body, body.set, recorded)?.values ?? []) {
      const key = keyOf({ joint, motion, side });
      const then = after.find((angle) => keyOf(angle) === key);
      const before = sums.get(key) ?? { joint, motion, side, sum: 0 };
      sums.set(key, { ...before, sum: before.sum + Math.abs((then?.deg ?? deg) - deg) });
    }
  }
  return [...sums.values()]
    .map(({ sum, ...name }) => ({ ...name, deg: sum / subjects.length }))
    .sort((a, b) => b.deg - a.deg);
}
