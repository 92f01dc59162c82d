import type { C3dWarning } from './c3d-warnings.ts';
import type { C3dGroup } from './parameters.ts';
import { storedLabels } from './point-group.ts';
import { counted, few } from './warning-text.ts';

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
    const message = `${counted(labels.length, 'label')} for ${counted(pointCount, 'point')}; the surplus names nothing.`;
    warnings.push({ code: 'labels-more-than-points', message });
  } else if (labels.length < pointCount) {
    const message = `${counted(labels.length, 'label')} for ${counted(pointCount, 'point')}; the last points have no name.`;
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
  if (blank.length > 0) warnings.push({ code: 'labels-blank', message: `Points without a label: ${few(blank)}.` });
  if (repeated.length > 0) {
    warnings.push({ code: 'labels-repeated', message: `Points with the same label: ${few(repeated)}.` });
  }
  return labels;
}
