import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { AveragedMarkers } from './average-window.ts';
import type { SubjectGeometry } from './subject-geometry.ts';

/** One still body: what every rule is judged on. */
export interface StandingBody {
  readonly set: MarkerSet;
  readonly geometry: SubjectGeometry;
  /** Marker positions in lab axes, mm; index marker * 3, NaN where not visible. */
  readonly lab: Float64Array;
  /** Markers, virtual points and directions in body axes. */
  readonly positions: Float64Array;
  /** The same over equal parts of the window. */
  readonly parts: readonly Float64Array[];
  readonly averaged: AveragedMarkers;
  /** The person never stood still: only rules within one segment are judged. */
  readonly restless: boolean;
}

export function standBody(
  set: MarkerSet,
  geometry: SubjectGeometry,
  averaged: AveragedMarkers,
  restless: boolean,
): StandingBody {
  const positions = new Float64Array(geometry.size);
  geometry.place(averaged.means, positions);
  const parts = averaged.parts.map((lab) => {
    const part = new Float64Array(geometry.size);
    geometry.place(lab, part);
    return part;
  });
  return { set, geometry, lab: averaged.means, positions, parts, averaged, restless };
}

/** The same body with its markers elsewhere. */
export function withMarkersAt(body: StandingBody, lab: Float64Array): StandingBody {
  const positions = new Float64Array(body.geometry.size);
  body.geometry.place(lab, positions);
  return { ...body, lab, positions };
}
