/** Whether a marker has a place; index marker * 3, NaN where not visible. */
export function isSeen(x: Float64Array, marker: number): boolean {
  return !Number.isNaN(x[marker * 3]!);
}

/** Puts each of two markers in the other one's place. */
export function exchange(x: Float64Array, a: number, b: number): void {
  for (let axis = 0; axis < 3; axis++) {
    const held = x[a * 3 + axis]!;
    x[a * 3 + axis] = x[b * 3 + axis]!;
    x[b * 3 + axis] = held;
  }
}
