/** Allowed values as a marker set writes them: around a target, or a range with one end possibly open. */
export type Allowed =
  | { readonly target: number; readonly limit: number }
  | { readonly range: readonly [number | null, number | null] };

/** The same as plain numbers. Residuals are measured from `reference`: the target, or the middle or only end of a range. */
export interface Bounds {
  readonly reference: number;
  readonly low: number;
  readonly high: number;
  readonly borderline: number;
}

export function boundsOf(allowed: Allowed, borderline: number): Bounds {
  if ('target' in allowed) {
    const { target, limit } = allowed;
    return { reference: target, low: target - limit, high: target + limit, borderline };
  }
  const low = allowed.range[0] ?? Number.NEGATIVE_INFINITY;
  const high = allowed.range[1] ?? Number.POSITIVE_INFINITY;
  return { reference: referenceOf(low, high), low, high, borderline };
}

function referenceOf(low: number, high: number): number {
  if (Number.isFinite(low) && Number.isFinite(high)) return (low + high) / 2;
  return Number.isFinite(low) ? low : high;
}

export type Judgement = 'pass' | 'borderline' | 'fail';

/**
 * A value fails when it lies outside its bounds and would still lie beyond the borderline band if it were two
 * standard deviations better than measured. A precise value therefore fails exactly at its limit, and one that
 * leans on an estimate stays borderline until the estimate cannot explain it.
 */
export function judge(value: number, bounds: Bounds, uncertainty: number): Judgement {
  const beyond = Math.max(bounds.low - value, value - bounds.high);
  if (beyond <= -bounds.borderline) return 'pass';
  if (beyond > 0 && beyond + bounds.borderline > 2 * uncertainty) return 'fail';
  return 'borderline';
}
