import type { Allowed } from '../rule-kinds/allowed.ts';
import { type Draft, refuse } from './draft.ts';

/** What is judged by allowed values: a rule, a stance item, or a variant's other values for one. */
interface Limits {
  readonly allowed?: Allowed;
  readonly allowedTurn?: { readonly limitDeg: number };
  readonly borderline: number;
  readonly axisSdDeg?: number;
}

/** @throws MarkerSetError where nothing could fail, or nothing could pass */
export function checkLimits(draft: Draft, pointer: string, limits: Limits): void {
  const { allowed, allowedTurn, borderline, axisSdDeg } = limits;
  let half = allowedTurn?.limitDeg ?? Number.POSITIVE_INFINITY;
  if (allowed !== undefined && 'range' in allowed) {
    const [low, high] = allowed.range;
    if (low === null && high === null)
      refuse(draft, `${pointer}/allowed/range`, 'found both ends open, so that nothing could fail; give at least one');
    if (low !== null && high !== null) {
      if (low >= high)
        refuse(
          draft,
          `${pointer}/allowed/range`,
          `found ${low} and ${high}, expected the lower end first; exchange or correct them`,
        );
      half = (high - low) / 2;
    }
  } else if (allowed !== undefined) half = allowed.limit;
  if (borderline >= half) {
    refuse(
      draft,
      `${pointer}/borderline`,
      `found ${borderline}, which leaves nothing of the ${half} on either side to pass; make it smaller`,
    );
  }
  if (axisSdDeg !== undefined && axisSdDeg >= half) {
    refuse(
      draft,
      `${pointer}/axisSdDeg`,
      `found ${axisSdDeg}, for which the limit of ${half} leaves no room; widen the limit`,
    );
  }
}
