import type { Report } from '../../core/report/report.ts';

/** What of a report a figure is drawn from. */
export type DrawnPatient = Pick<Report, 'markers' | 'figure'>;

/** Where the patient is looked at from. */
export type View = 'front' | 'behind' | 'right' | 'left' | 'above';

/** Forward, left, up of the patient; mm. */
export type Place = readonly [number, number, number];

/** Right and down in a picture; mm. */
export type Flat = readonly [number, number];

interface ViewDefinition {
  /** After "Seen". */
  readonly from: string;
  /** What lies toward each edge of the picture. */
  readonly edges: { readonly left: string; readonly right: string };
  readonly flatten: (place: Place) => Flat;
  /** Toward the viewer. */
  readonly nearness: (place: Place) => number;
}

const patientsRight = "patient's right";
const patientsLeft = "patient's left";

/** From the patient's right, forward points to the viewer's right; from the left it is the mirror image of that. */
export const views: Readonly<Record<View, ViewDefinition>> = {
  front: {
    from: 'from the front',
    edges: { left: patientsRight, right: patientsLeft },
    flatten: ([, left, up]) => [left, -up],
    nearness: ([forward]) => forward,
  },
  behind: {
    from: 'from behind',
    edges: { left: patientsLeft, right: patientsRight },
    flatten: ([, left, up]) => [-left, -up],
    nearness: ([forward]) => -forward,
  },
  right: {
    from: "from the patient's right",
    edges: { left: 'back', right: 'front' },
    flatten: ([forward, , up]) => [forward, -up],
    nearness: ([, left]) => -left,
  },
  left: {
    from: "from the patient's left",
    edges: { left: 'front', right: 'back' },
    flatten: ([forward, , up]) => [-forward, -up],
    nearness: ([, left]) => left,
  },
  above: {
    from: 'from above',
    edges: { left: patientsLeft, right: patientsRight },
    flatten: ([forward, left]) => [-left, -forward],
    nearness: ([, , up]) => up,
  },
};

/** Side that is further from the viewer, drawn fainter; null where neither is. */
export function farSide(view: View): 'right' | 'left' | null {
  if (view === 'right') return 'left';
  return view === 'left' ? 'right' : null;
}

/** Maps flat millimetres into a picture. */
export interface Frame {
  readonly width: number;
  readonly height: number;
  /** Picture units a mm. */
  readonly scale: number;
  readonly to: (flat: Flat) => Flat;
}

/** A frame that shows a box of flat mm as large as fits, in the middle. */
export function frameOn(
  box: { readonly left: number; readonly right: number; readonly top: number; readonly bottom: number },
  width: number,
  height: number,
): Frame {
  const scale = Math.min(width / Math.max(1, box.right - box.left), height / Math.max(1, box.bottom - box.top));
  const middle = [(box.left + box.right) / 2, (box.top + box.bottom) / 2] as const;
  return {
    width,
    height,
    scale,
    to: ([x, y]) => [width / 2 + (x - middle[0]) * scale, height / 2 + (y - middle[1]) * scale],
  };
}

export function boxOf(points: readonly Flat[], margin: number) {
  const xs = points.map(([x]) => x);
  const ys = points.map(([, y]) => y);
  return {
    left: Math.min(...xs) - margin,
    right: Math.max(...xs) + margin,
    top: Math.min(...ys) - margin,
    bottom: Math.max(...ys) + margin,
  };
}

/** Markers whose place is known, hostile labels and all. */
export function placesOf(report: Pick<Report, 'markers'>): Map<string, Place> {
  return new Map(
    Object.entries(report.markers).flatMap(([label, { mm }]) =>
      mm.every(Number.isFinite) ? [[label, mm] as const] : [],
    ),
  );
}

/** A coordinate as it is written into SVG: a tenth of a unit is finer than any screen. */
export function svgNumber(value: number): string {
  const rounded = Math.round(value * 10) / 10;
  return Object.is(rounded, -0) ? '0' : String(rounded);
}
