const daysIn = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Whether `YYYY-MM-DD` is a day of the Gregorian calendar, from the year 1900 on. */
export function isDate(text: string): boolean {
  const [year, month, day] = text.split('-').map(Number) as [number, number, number];
  const leap = month === 2 && year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return year >= 1900 && day >= 1 && day <= (daysIn[month - 1] ?? 0) + (leap ? 1 : 0);
}
