import { type Band, expectedSize } from './expected-size.ts';
import { nameMeasure, nameReading, sayValue } from './measure-words.ts';
import { nameSlip } from './name-slip.ts';
import { keyOf, type Quantity } from './quantities.ts';
import type { Sheet } from './sheet.ts';
import { repeatOf, type SheetFinding } from './sheet-finding.ts';

/**
 * Every reading against what is plausible for this stature, age and sex: an implausible one that another unit or decimal
 * place would make plausible is told with the name of that slip.
 */
export function checkBand({ quantities, person }: Sheet): SheetFinding[] {
  return quantities.flatMap((quantity) => {
    // A leg against a known stature is a check of its own.
    const band = expectedSize(quantity.measure, person);
    const odd = quantity.written.find((_, index) => isOutside(quantity.readings[index]!, band));
    if (odd === undefined) return [];
    const value = quantity.readings[quantity.written.indexOf(odd)]!;
    const slip = nameSlip(odd, band);
    if (slip !== null) {
      const says = `The ${nameReading(quantity)} of ${odd.value} ${odd.unit} is implausible; it would be ${sayValue(quantity.measure, slip.value)} if ${slip.says}.`;
      return [repeatOf('unit-slip', [quantity], says, band.source)];
    }
    if (quantity.measure === 'legLength' && person.statureMm !== null) return [];
    return [
      repeatOf(
        'plausible-band',
        [quantity],
        sayOutside(quantity, value, band, isOtherDepth(quantity, value)),
        band.source,
      ),
    ];

    function isOtherDepth({ measure }: Quantity, mm: number): boolean {
      return (
        measure === 'asisTrochanterDepth' && mm > band.high && !isOutside(mm, expectedSize('asisPsisDepth', person))
      );
    }
  });
}

/** Names of the readings that findings are about, so that one misread value is told once. */
export function readingsOf(findings: readonly SheetFinding[]): ReadonlySet<string> {
  return new Set(findings.flatMap(({ readings }) => readings.map(keyOf)));
}

function isOutside(value: number, { low, high }: Band): boolean {
  return value < low || value > high;
}

function sayOutside(quantity: Quantity, value: number, { low, high }: Band, isOtherDepth: boolean): string {
  const { measure } = quantity;
  const range = `${sayValue(measure, low)} to ${sayValue(measure, high)}`;
  const says = `The ${nameReading(quantity)} of ${sayValue(measure, value)} is outside ${range}, what is plausible here.`;
  if (isOtherDepth)
    return `${says} It would do for the ${nameMeasure('asisPsisDepth')}, which is another measurement, or for the slanted distance between the two points.`;
  return says;
}
