/** Day and time as the clock on the wall shows them, with how far that is from UTC: a day in a history is the day at the place. */
export function localTime(now: Date): string {
  const minutes = -now.getTimezoneOffset();
  const away = Math.abs(minutes);
  const offset = `${minutes < 0 ? '-' : '+'}${two(Math.floor(away / 60))}:${two(away % 60)}`;
  const time = `${two(now.getHours())}:${two(now.getMinutes())}:${two(now.getSeconds())}`;
  return `${localDay(now)}T${time}${offset}`;
}

/** YYYY-MM-DD */
export function localDay(now: Date): string {
  return `${now.getFullYear()}-${two(now.getMonth() + 1)}-${two(now.getDate())}`;
}

function two(number: number): string {
  return String(number).padStart(2, '0');
}
