import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { Report } from '../report/report.ts';
import { fixed } from '../report/rounding.ts';

/**
 * Where the markers of a figure are, for whoever reads figures: a row for each landmark from the head down, right beside
 * left, so that the sides can be compared; forward, outward and up, mm.
 */
export function figureTable({ markers }: Pick<Report, 'markers'>, set: MarkerSet): string[][] {
  const stems = [...new Set(set.markers.filter(({ label }) => markers[label] !== undefined).map(({ stem }) => stem))];
  const rows = stems.map((stem) => {
    const own = set.markers.filter((marker) => marker.stem === stem && markers[marker.label] !== undefined);
    const at = (side: string): string[] => {
      const marker = own.find((one) => one.side === side || (side === 'left' && one.side === 'midline'));
      if (marker === undefined) return ['', '', ''];
      const [forward, left, up] = markers[marker.label]!.mm;
      return [forward, marker.side === 'right' ? -left : left, up].map((mm) => fixed(0, mm));
    };
    const height = Math.max(...own.map(({ label }) => markers[label]!.mm[2]));
    return { height, row: [own.map(({ label }) => label).join(', '), ...at('right'), ...at('left')] };
  });
  rows.sort((a, b) => b.height - a.height);
  return [
    ['', 'right:', '', '', 'left:', '', ''],
    ['', 'forward', 'outward', 'up', 'forward', 'outward', 'up'],
    ...rows.map(({ row }) => row),
  ];
}
