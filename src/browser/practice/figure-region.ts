import {
  boxOf,
  type DrawnPatient,
  type Frame,
  frameOn,
  type Place,
  placesOf,
  type View,
  views,
} from '../../page/figure/views.ts';

export const picture = { width: 640, height: 600 } as const;

/** Around the whole figure; there is a head above the highest marker. */
const margin = 70;
const headShare = 1.14;
/** Around the markers of a region, and how much of a body is shown at the least; mm. */
const regionMargin = 90;
const leastMm = 320;
/** Around one marker. */
const nearMm = 300;

export interface Region {
  /** As the report names the segment; empty: the whole figure. */
  readonly name: string;
  readonly says: string;
}

export function regionsOf({ figure }: DrawnPatient): Region[] {
  const segments = (figure?.segments ?? []).map(({ name, side }) => ({
    name,
    says: side === 'midline' ? name : `${side} ${name.slice(0, -side.length - 1)}`,
  }));
  return [{ name: '', says: 'the whole figure' }, ...segments];
}

/**
 * The part of the figure that is shown.
 * @param region name of a segment, `marker` for what lies around the chosen one, or empty for all
 * @param zoom times that as large, about the chosen marker where there is one
 */
export function frameOnRegion(
  patient: DrawnPatient,
  view: View,
  region: string,
  zoom: number,
  chosen: Place | null,
): Frame {
  const { flatten } = views[view];
  const places = placesOf(patient);
  const near = region === 'marker' ? chosen : null;
  const segment = patient.figure?.segments.find(({ name }) => name === region);
  const whole = [...places.values()];
  const shown: Place[] = near
    ? [near]
    : segment
      ? segment.markers.map((label) => places.get(label)).filter((place) => place !== undefined)
      : whole;
  const isWhole = !near && !segment;
  const tall = Math.max(0, ...whole.map(([, , up]) => up));
  const ends: Place[] =
    isWhole && view !== 'above'
      ? [
          [0, 0, 0],
          [0, 0, tall * headShare],
        ]
      : [];
  const box = boxOf([...shown, ...ends].map(flatten), near ? 0 : isWhole ? margin : regionMargin);
  const wide = Math.max(box.right - box.left, near ? nearMm : leastMm) / zoom;
  const high = Math.max(box.bottom - box.top, near ? nearMm : leastMm) / zoom;
  const middle = zoom > 1 && chosen ? flatten(chosen) : [(box.left + box.right) / 2, (box.top + box.bottom) / 2];
  return frameOn(
    {
      left: middle[0]! - wide / 2,
      right: middle[0]! + wide / 2,
      top: middle[1]! - high / 2,
      bottom: middle[1]! + high / 2,
    },
    picture.width,
    picture.height,
  );
}

const rulers = [10, 20, 50, 100, 200, 500] as const;
const shortestRuler = 70;

/** Length of a scale in the corner that is long enough to be read; mm. */
export function rulerFor(unitsPerMm: number): number {
  return rulers.find((mm) => mm * unitsPerMm >= shortestRuler) ?? 500;
}
