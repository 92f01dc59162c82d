/** One line of the table: what was measured beside what it must not exceed (or fall below). */
export interface Row {
  readonly what: string;
  /** What it costs, in a unit. */
  readonly figure: string;
  /** Held against the target; null where there is none. */
  readonly value: number | null;
  readonly target: { readonly sense: 'at most' | 'at least'; readonly value: number; readonly unit: string } | null;
}

export function milliseconds(value: number): string {
  return `${value < 1 ? value.toFixed(3) : value.toFixed(1)} ms`;
}

/** Against a floor measured in the same rounds. */
export function ratioRow(what: string, ms: number, floorMs: number, atMost: number | null): Row {
  return {
    what,
    figure: milliseconds(ms),
    value: ms / floorMs,
    target: atMost === null ? null : { sense: 'at most', value: atMost, unit: 'times' },
  };
}

export function isMet({ value, target }: Row): boolean {
  if (value === null || target === null) return true;
  return target.sense === 'at most' ? value <= target.value : value >= target.value;
}
