import type { C3dFile } from '../c3d/read-c3d.ts';
import type { FootMarkers } from '../force-plates/foot-outline.ts';
import { type StandingLoad, standingLoad } from '../force-plates/standing-load.ts';
import { add, scale, type Vec3 } from '../geometry/vector.ts';
import type { StandingPose } from '../pose/find-standing-pose.ts';
import { millimetresPer } from '../pose/length-unit.ts';
import type { StandingBody } from '../pose/standing-body.ts';
import { at } from '../rule-kinds/positions.ts';
import { measuredKg } from '../session/measured.ts';
import type { Session } from '../session/session.ts';

/** What the force plates of a trial say about the person who stands in it; null where the file has none. */
export function assessLoad(
  file: C3dFile,
  pose: StandingPose,
  body: StandingBody,
  session: Session,
): StandingLoad | null {
  return standingLoad(file, {
    run: pose.window,
    up: pose.vertical.up,
    millimetresPerUnit: millimetresPer[pose.unit]!,
    feet: feetOf(body),
    massKg: measuredKg(session),
    supported: session.facts.supported,
  });
}

/** The feet are the segments that have a forward of their own, from heel to forefoot; lab axes, mm. */
function feetOf({ set, geometry, positions, lab }: StandingBody): FootMarkers[] {
  const { forward, left, up, origin } = geometry.axes(lab);
  const inLab = (name: string): Vec3 => {
    const [f, l, u] = at(positions, geometry.lookup.point(name));
    return add(origin, add(add(scale(forward, f), scale(left, l)), scale(up, u)));
  };
  return set.segments.flatMap(({ side, forward: line }) =>
    side !== 'midline' && line !== null && geometry.has(line.from) && geometry.has(line.to)
      ? [{ side, heel: inLab(line.from), forefoot: inLab(line.to) }]
      : [],
  );
}
