import type { StandingBody } from './standing-body.ts';

/** Height of the visible high markers above the visible low ones, mm: the size of the body. NaN where none is seen. */
export function bodyHeightMm({ set, geometry, positions }: StandingBody): number {
  const meanUp = (labels: readonly string[]): number => {
    const seen = labels.filter((label) => geometry.has(label));
    return seen.reduce((sum, label) => sum + positions[geometry.lookup.point(label) + 2]!, 0) / seen.length;
  };
  return meanUp(set.bodyAxes.high) - meanUp(set.bodyAxes.low);
}
