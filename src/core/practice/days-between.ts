/**
 * Days from one day to another, YYYY-MM-DD of the Gregorian calendar; negative backwards. Days are counted from a March, so
 * that a leap day is the last of its year.
 */
export function daysBetween(from: string, to: string): number {
  return dayNumber(to) - dayNumber(from);
}

function dayNumber(day: string): number {
  const [year, month, date] = day.split('-').map(Number) as [number, number, number];
  const fromMarch = (month + 9) % 12;
  const years = year - (month < 3 ? 1 : 0);
  const leapDays = Math.floor(years / 4) - Math.floor(years / 100) + Math.floor(years / 400);
  return 365 * years + leapDays + Math.floor((153 * fromMarch + 2) / 5) + date;
}
