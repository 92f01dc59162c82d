/** Two-sided 95 % of the normal distribution. */
const z = 1.959964;

/**
 * What share a count may stand for, 95 %: the score interval of Wilson 1927 (J Am Stat Assoc 22:209-212), which keeps its
 * promise with few trials and with all or none of them right.
 * @returns shares from 0 to 1
 */
export function wilsonInterval(right: number, of: number): readonly [number, number] {
  const share = right / of;
  const middle = share + z ** 2 / (2 * of);
  const half = z * Math.sqrt((share * (1 - share)) / of + z ** 2 / (4 * of ** 2));
  const whole = 1 + z ** 2 / of;
  return [Math.max(0, (middle - half) / whole), Math.min(1, (middle + half) / whole)];
}
