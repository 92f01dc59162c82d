/** The time of day as it is said at the bedside: "14:02". */
export function timeOfDay(now: Date = new Date()): string {
  const two = (number: number) => String(number).padStart(2, '0');
  return `${two(now.getHours())}:${two(now.getMinutes())}`;
}
