import { storedText } from '../../core/c3d/point-group.ts';
import type { C3dGroup } from '../../core/c3d/read-c3d.ts';
import type { MarkerSet } from '../../core/marker-set/marker-set.ts';
import { readCode } from './read-code.ts';
import { unknownVisit, type Visit, type VisitField, visitFields } from './visit.ts';

/** Who, when and where as a C3D file records it, in the parameters that the marker set names for it. */
export function recordedVisit(groups: ReadonlyMap<string, C3dGroup>, { recordedIn }: MarkerSet): Visit {
  if (recordedIn === null) return unknownVisit;
  const visit: Record<VisitField, string | null> = { ...unknownVisit };
  for (const field of visitFields) {
    const [group, name] = (recordedIn[field] ?? '').toUpperCase().split(':');
    const text = group && name ? storedText(groups, group, name) : null;
    visit[field] = text === null ? null : readCode(field, text.trim());
  }
  return visit;
}
