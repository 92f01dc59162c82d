/** What a dropped file is taken for. */
export type DroppedKind = 'trial' | 'marker-set' | 'session' | 'unknown';

/** JSON files are told apart by what they say they are, everything else is tried as a trial. */
export function kindOfDropped(name: string, text: string | null): DroppedKind {
  if (text === null) return 'trial';
  let data: unknown;
  try {
    data = JSON.parse(text);
  } catch {
    return /\.json$/i.test(name) ? 'unknown' : 'trial';
  }
  const format = typeof data === 'object' && data !== null && 'format' in data ? String(data.format) : '';
  if (format.startsWith('setsquare-marker-set/')) return 'marker-set';
  return format.startsWith('setsquare-session/') ? 'session' : 'unknown';
}

/** Larger files are no trial that anybody stands in; a browser would hang on them. */
export const mostTrialBytes = 1_000_000_000;
/** Marker sets and sessions are read as text up to this size. */
export const mostTextBytes = 1_000_000;

/** Only small files with a name that ends in .json are read as text. */
export function isRead(name: string, size: number): boolean {
  return /\.json$/i.test(name) && size <= mostTextBytes;
}
