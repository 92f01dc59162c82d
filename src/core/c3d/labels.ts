import type { C3dWarning } from './c3d-warnings.ts';
import type { C3dGroup } from './parameters.ts';
import { storedLabels } from './point-group.ts';

/**
 * The point labels as stored, joined over LABELS, LABELS2 and so on, with warnings for what readers of labels trip
 * over. Warnings give point numbers (from 1), not labels: a label may hold a person's name.
 */
export function readLabels(
  groups: ReadonlyMap<string, C3dGroup>,
  pointCount: number,
  warnings: C3dWarning[],
): string[] {
  const labels = storedLabels(groups);
  if (labels === null) {
    if (pointCount > 0)
      warnings.push({ code: 'labels-missing', message: 'No POINT:LABELS; the points have no names.' });
    return [];
  }
  if (labels.length > pointCount) {
    const message = `${labels.length} labels for ${pointCount} points; the surplus names nothing.`;
    warnings.push({ code: 'labels-more-than-points', message });
  } else if (labels.length < pointCount) {
    const message = `${labels.length} labels for ${pointCount} points; the last points have no name.`;
    warnings.push({ code: 'labels-fewer-than-points', message });
  }
  const firstPoint = new Map<string, number>();
  const blank: number[] = [];
  const repeated: string[] = [];
  labels.slice(0, pointCount).forEach((label, point) => {
    const earlier = firstPoint.get(label);
    if (label === '') blank.push(point + 1);
    else if (earlier === undefined) firstPoint.set(label, point);
    else repeated.push(`${earlier + 1} and ${point + 1}`);
  });
  if (blank.length > 0) warnings.push({ code: 'labels-blank', message: `No label for points ${few(blank)}.` });
  if (repeated.length > 0) {
    warnings.push({ code: 'labels-repeated', message: `The same label for points ${few(repeated)}.` });
  }
  return labels;
}

/** The first items of a list that a hostile file can make long. */
function few(items: readonly (number | string)[]): string {
  const shown = items.slice(0, 8).join(', ');
  return items.length > 8 ? `${shown} and ${items.length - 8} more` : shown;
}
