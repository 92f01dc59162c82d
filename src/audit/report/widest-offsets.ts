import type { GroupOffset } from '../analysis/audit-report.ts';

/** Of each group and rule the offset of both sides together; where only one side was judged, that. */
export function widestOffsets(offsets: readonly GroupOffset[]): GroupOffset[] {
  const hasBoth = new Set(offsets.filter(({ side }) => side === 'both').map(keyOf));
  return offsets.filter((offset) => offset.side === 'both' || !hasBoth.has(keyOf(offset)));
}

function keyOf({ by, group, rule }: GroupOffset): string {
  return JSON.stringify([by, group, rule]);
}
