import { expectedSize } from './expected-size.ts';
import { nameReading, sayValue } from './measure-words.ts';
import type { Sheet } from './sheet.ts';
import { repeatOf, type SheetFinding } from './sheet-finding.ts';

/**
 * Leg length against stature. Where the other lengths speak against the stature as well, it is the stature that was
 * misread, and that is told once in place of every one of them.
 */
export function checkLeg({ quantities, person, statureDoubt }: Sheet): SheetFinding[] {
  if (statureDoubt !== null) {
    const { ratio, measures } = statureDoubt;
    const percent = Math.round(Math.abs(ratio - 1) * 100);
    return [
      repeatOf(
        'leg-against-stature',
        [{ measure: 'stature', side: null }],
        `The stature is doubted: ${measures} kinds of measurement are about ${percent} % ${ratio > 1 ? 'larger' : 'smaller'} than it lets expect, and they agree with each other.`,
        'proportions of ANSUR II 2012 and from memory; 18 to 22 % off throughout is no ordinary body, common practice',
      ),
    ];
  }
  if (person.statureMm === null) return [];
  const { low, high, source } = expectedSize('legLength', person);
  return quantities
    .filter(({ measure, mean }) => measure === 'legLength' && (mean < low || mean > high))
    .map((leg) =>
      repeatOf(
        'leg-against-stature',
        [leg],
        `The ${nameReading(leg)} of ${sayValue('legLength', leg.mean)} does not go with a stature of ${Math.round(person.statureMm!)} mm, for which ${Math.round(low)} to ${Math.round(high)} mm is plausible. Check that it ends at the medial malleolus.`,
        source,
      ),
    );
}
