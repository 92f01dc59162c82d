import type { Report } from '../report/report.ts';
import { fixed } from '../report/rounding.ts';
import type { MarkerChoice } from './shown-trial.ts';

/** One landmark on both sides; forward, outward (left for a marker of the midline) and up, mm. */
export interface FigureRow {
  /** `R_HEEL, L_HEEL` */
  readonly markers: string;
  readonly called: string;
  readonly right: readonly [number, number, number] | null;
  readonly left: readonly [number, number, number] | null;
  readonly midline: readonly [number, number, number] | null;
}

/** Where the markers of a figure are, for whoever reads figures or hears them: from the head down, right beside left. */
export function figureRows(markers: Report['markers'], choices: readonly MarkerChoice[]): FigureRow[] {
  const landmarks = [...new Set(choices.map(({ landmark }) => landmark))];
  const rows = landmarks.map((landmark) => {
    const own = choices.filter((choice) => choice.landmark === landmark);
    const on = (side: MarkerChoice['side']): FigureRow['right'] => {
      const marker = own.find((choice) => choice.side === side);
      if (marker === undefined) return null;
      const [forward, left, up] = markers[marker.marker]!.mm;
      return [forward, side === 'right' ? -left : left, up];
    };
    const row = { right: on('right'), left: on('left'), midline: on('midline') };
    return { markers: own.map(({ marker }) => marker).join(', '), called: own[0]!.called, ...row };
  });
  const height = ({ right, left, midline }: FigureRow): number =>
    Math.max(...[right, left, midline].map((place) => place?.[2] ?? Number.NEGATIVE_INFINITY));
  return rows.sort((a, b) => height(b) - height(a));
}

/** The same as cells of a table of text; what lies on the midline stands under the left. */
export function figureTable(markers: Report['markers'], choices: readonly MarkerChoice[]): string[][] {
  const cells = (place: FigureRow['right']): string[] => place?.map((mm) => fixed(0, mm)) ?? ['', '', ''];
  return [
    ['', 'right:', '', '', 'left:', '', ''],
    ['', 'forward', 'outward', 'up', 'forward', 'outward', 'up'],
    ...figureRows(markers, choices).map(({ markers: labels, right, left, midline }) => [
      labels,
      ...cells(right),
      ...cells(left ?? midline),
    ]),
  ];
}
