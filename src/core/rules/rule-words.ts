import type { Bounds } from '../rule-kinds/allowed.ts';
import type { Unit } from '../rule-kinds/rule-kind.ts';

interface Says {
  readonly saysAbove: string;
  readonly saysBelow: string;
  readonly unit: Unit;
}

/**
 * Fills in the marker set's sentence for a value: `{value}` the figure with its sign, `{size}` without, `{off}` how far
 * it is from what is expected, and `{size above/below}` the figure without its sign with the word that goes with it. A
 * sentence that gives the size alone ("higher than the left") goes by the sign of the
 * value; any other by whether the value is above or below what is expected.
 */
export function sayValue(says: Says, value: number, bounds: Bounds): string {
  const off = value - bounds.reference;
  const decides = says.saysAbove.includes('{size}') ? value : off;
  return (decides >= 0 ? says.saysAbove : says.saysBelow)
    .replaceAll(/\{size ([a-z ]+)\/([a-z ]+)\}/g, (_, over: string, under: string) => {
      return `${figure(Math.abs(value), says.unit)} ${value >= 0 ? over : under}`;
    })
    .replaceAll('{value}', figure(value, says.unit))
    .replaceAll('{size}', figure(Math.abs(value), says.unit))
    .replaceAll('{off}', figure(Math.abs(off), says.unit));
}

/** A figure as it is said at the bedside: whole millimetres and degrees. */
export function figure(value: number, unit: Unit): string {
  if (unit === 'ratio') return value.toFixed(2);
  const whole = Math.round(value) + 0;
  return unit === 'mm' ? `${whole} mm` : `${whole}°`;
}
