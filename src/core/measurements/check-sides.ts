import type { Measure } from '../marker-set/measure.ts';
import { expectedSize } from './expected-size.ts';
import { nameMeasure, sayValue } from './measure-words.ts';
import { findQuantity, type Quantity } from './quantities.ts';
import type { Sheet } from './sheet.ts';
import { repeatOf, type SheetFinding } from './sheet-finding.ts';

/** How far right and left may differ before both are taken again, mm. */
const limits: Readonly<Partial<Record<Measure, { readonly mm: number; readonly source: string }>>> = {
  legLength: {
    mm: 20,
    source:
      'inequality of 5.2 mm (SD 4.1), usually of no consequence below 20 mm: Knutson 2005, Chiropr Osteopat 13:11',
  },
  asisTrochanterDepth: { mm: 15, source: 'common practice' },
  kneeDiameter: { mm: 10, source: 'common practice' },
  ankleDiameter: { mm: 8, source: 'common practice' },
};

/**
 * Right against left, less what is recorded of this patient. Where only one side departs from what is expected, that side
 * is taken again first.
 * @param told readings that are doubted already
 */
export function checkSides({ quantities, person, session }: Sheet, told: ReadonlySet<string>): SheetFinding[] {
  const { prosthesis, orthosis, legLengthDifferenceMm } = session.facts;
  return quantities.flatMap((right) => {
    const limit = limits[right.measure];
    const left = findQuantity(quantities, right.measure, 'left');
    if (right.side !== 'right' || left === null || limit === undefined) return [];
    if (told.has(`right ${right.measure}`) || told.has(`left ${right.measure}`)) return [];
    if (prosthesis.length > 0 || (orthosis.length > 0 && right.measure !== 'legLength')) return [];
    const recorded = right.measure === 'legLength' ? (legLengthDifferenceMm ?? 0) : 0;
    const difference = right.mean - left.mean;
    if (Math.abs(difference - recorded) <= limit.mm) return [];
    const ordered = furtherFirst([right, left], expectedSize(right.measure, person).expected, right.measure);
    return [repeatOf('left-against-right', ordered, sayDifference(right, left, recorded, limit.mm), limit.source)];
  });
}

/** A depth is misread too long, as the slanted distance; anything else either way. */
function furtherFirst(pair: readonly [Quantity, Quantity], expected: number | null, measure: Measure): Quantity[] {
  if (measure === 'asisTrochanterDepth') return pair.toSorted((a, b) => b.mean - a.mean);
  if (expected === null) return [...pair];
  return pair.toSorted((a, b) => Math.abs(b.mean - expected) - Math.abs(a.mean - expected));
}

function sayDifference(right: Quantity, left: Quantity, recorded: number, limitMm: number): string {
  const { measure } = right;
  const apart = Math.round(Math.abs(right.mean - left.mean));
  const but = recorded === 0 ? '' : `, with ${Math.round(recorded)} mm recorded`;
  const says = `Right and left ${nameMeasure(measure)}, ${sayValue(measure, right.mean)} and ${sayValue(measure, left.mean)}, differ by ${apart} mm${but}; up to ${limitMm} mm${recorded === 0 ? '' : ' from that'} is ordinary.`;
  if (measure !== 'asisTrochanterDepth') return says;
  const longer = right.mean > left.mean ? 'right' : 'left';
  return `${says} The ${longer} one is the longer: perhaps the slanted distance was read there.`;
}
