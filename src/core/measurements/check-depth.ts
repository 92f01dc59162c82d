import { nameReading, sayValue } from './measure-words.ts';
import { findQuantity, keyOf } from './quantities.ts';
import type { Sheet } from './sheet.ts';
import { repeatOf, type SheetFinding } from './sheet-finding.ts';

const limitMm = 20;
/** Below it the relation is no rule of thumb any more. */
const shortestLegMm = 700;

/**
 * ASIS-trochanter depth against ankle diameter: in grown people the two are much alike, and a larger difference is
 * mostly a slip. In children and short legs it is told, and nothing is asked for.
 * @param told readings that are doubted already
 */
export function checkDepth({ quantities, person }: Sheet, told: ReadonlySet<string>): SheetFinding[] {
  return quantities.flatMap((depth): SheetFinding[] => {
    if (depth.measure !== 'asisTrochanterDepth') return [];
    const ankle = findQuantity(quantities, 'ankleDiameter', depth.side);
    if (ankle === null || told.has(keyOf(depth)) || told.has(keyOf(ankle))) return [];
    const longer = depth.mean - ankle.mean;
    if (Math.abs(longer) <= limitMm) return [];
    const leg = findQuantity(quantities, 'legLength', depth.side)?.mean ?? person.legMm;
    const isInformation = person.isAdult === false || (leg !== null && leg < shortestLegMm);
    const finding = repeatOf(
      'depth-against-ankle',
      [depth, ankle],
      `The ${nameReading(depth)} of ${sayValue('asisTrochanterDepth', depth.mean)} is ${Math.round(Math.abs(longer))} mm ${longer > 0 ? 'more' : 'less'} than the ankle diameter of ${sayValue('ankleDiameter', ankle.mean)}; in adults the two are mostly within ${limitMm} mm.${longer > 0 ? ' A depth too long comes of reading the slanted distance between the two points.' : ''}`,
      `common practice: within ${limitMm} mm in adults with legs of ${shortestLegMm} mm or more`,
    );
    return [isInformation ? { ...finding, status: 'note' } : finding];
  });
}
