/** A stored single-precision number in the digits it is good for. */
export function singleText(value: number): string {
  return String(Number(value.toPrecision(7)));
}

/** "1 frame", "2 frames". */
export function counted(count: number, noun: string): string {
  return `${count} ${noun}${count === 1 ? '' : 's'}`;
}

/** The first items of a list that a hostile file can make long. */
export function few(items: readonly (number | string)[]): string {
  const shown = items.slice(0, 8).join(', ');
  return items.length > 8 ? `${shown} and ${items.length - 8} more` : shown;
}
