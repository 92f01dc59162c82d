/** Names that laboratories give to standing trials (common practice), where neither marker set nor user says any. */
export const usualNames: readonly string[] = ['*static*.c3d', '*standing*.c3d', '*stand*.c3d'];

/** Whether a file's own name fits one of the patterns. Names that begin with a dot are other programs' own. */
export function fitsNames(name: string, patterns: readonly string[]): boolean {
  return !name.startsWith('.') && patterns.some((pattern) => fitsPattern(name.toLowerCase(), pattern.toLowerCase()));
}

/** A file that a trial of another name would be: named to whoever wonders why nothing is checked. */
export function isOtherTrial(name: string, patterns: readonly string[]): boolean {
  return /\.c3d$/i.test(name) && !name.startsWith('.') && !fitsNames(name, patterns);
}

/**
 * `*` stands for any letters or none, `?` for one; everything else for itself. Walks back to the last `*` only, so that
 * no pattern takes longer than name times pattern.
 */
function fitsPattern(name: string, pattern: string): boolean {
  let at = 0;
  let inPattern = 0;
  let star = -1;
  let starAt = 0;
  while (at < name.length) {
    if (pattern[inPattern] === '*') {
      star = inPattern++;
      starAt = at;
    } else if (inPattern < pattern.length && (pattern[inPattern] === '?' || pattern[inPattern] === name[at])) {
      inPattern++;
      at++;
    } else if (star >= 0) {
      inPattern = star + 1;
      at = ++starAt;
    } else {
      return false;
    }
  }
  while (pattern[inPattern] === '*') inPattern++;
  return inPattern === pattern.length;
}
