/** A point of a plot, both in degrees. */
export interface PlotPoint {
  readonly x: number;
  readonly y: number;
}

/** Columns for the figures on the left, and rows of the drawing. */
const margin = 6;
const rows = 13;
/** So that noise does not fill a page. */
const leastSpanDeg = 10;

/**
 * A scatter plot in letters, `columns` wide: `.` for one point, `:` for a few, `#` for many; `-` where y is 0. What the axes
 * are is said by whoever prints it.
 */
export function scatterPlot(points: readonly PlotPoint[], columns: number): string[] {
  if (points.length === 0) return [];
  const width = Math.max(20, columns - margin - 1);
  const [left, right] = ends(points.map(({ x }) => x));
  const [low, high] = ends(points.map(({ y }) => y));
  const counts = Array.from({ length: rows }, () => new Array<number>(width).fill(0));
  const rowOf = (y: number) => Math.min(rows - 1, Math.max(0, Math.round(((high - y) / (high - low)) * (rows - 1))));
  for (const { x, y } of points) {
    const column = Math.min(width - 1, Math.max(0, Math.round(((x - left) / (right - left)) * (width - 1))));
    counts[rowOf(y)]![column]! += 1;
  }
  const zero = low <= 0 && high >= 0 ? rowOf(0) : -1;
  const labels = new Map([[0, high], [rows - 1, low], ...(zero > 1 && zero < rows - 2 ? [[zero, 0] as const] : [])]);
  const lines = counts.map((row, index) => {
    const label = labels.get(index);
    const drawn = row.map((count) => (count > 0 ? mark(count) : index === zero ? '-' : ' ')).join('');
    return `${(label === undefined ? '' : String(Math.round(label))).padStart(margin - 1)} |${drawn}`.trimEnd();
  });
  const foot = `${String(Math.round(left)).padEnd(width - 6)}${String(Math.round(right)).padStart(6)}`;
  return [...lines, `${' '.repeat(margin)}+${'-'.repeat(width)}`, `${' '.repeat(margin + 1)}${foot}`];
}

function mark(count: number): string {
  return count === 1 ? '.' : count < 4 ? ':' : '#';
}

/** The ends of an axis on whole fives, at least so far apart. */
function ends(values: readonly number[]): [number, number] {
  const least = values.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY);
  const most = values.reduce((a, b) => Math.max(a, b), Number.NEGATIVE_INFINITY);
  const short = Math.max(0, leastSpanDeg - (most - least)) / 2;
  return [Math.floor((least - short) / 5) * 5, Math.ceil((most + short) / 5) * 5];
}
