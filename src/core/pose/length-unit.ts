export const millimetresPer: Readonly<Record<string, number>> = {
  mm: 1,
  cm: 10,
  dm: 100,
  m: 1000,
  in: 25.4,
  ft: 304.8,
};

export interface LengthUnit {
  readonly name: string;
  readonly millimetres: number;
  /** Declared by the file and plausible for a body. */
  readonly trusted: boolean;
}

/** From the feet to the pelvis and trunk, in mm: the smallest child that stands and the tallest adult, with room. */
const plausibleHeightMm = { low: 250, high: 1700 } as const;

/**
 * The unit that a file declares where a body of that size can exist, else the one among mm, cm, m and inches that
 * makes the body plausible; null when none does.
 * @param bodyHeight height of the high markers above the low ones, in file units
 */
export function findLengthUnit(declared: string | null, bodyHeight: number): LengthUnit | null {
  const name = (declared ?? '')
    .trim()
    .toLowerCase()
    .replace(/[^a-z]/g, '');
  const stated = Object.hasOwn(millimetresPer, name) ? millimetresPer[name] : undefined;
  if (stated !== undefined && isPlausible(bodyHeight * stated)) return { name, millimetres: stated, trusted: true };
  for (const guess of ['mm', 'm', 'cm', 'in'] as const) {
    if (isPlausible(bodyHeight * millimetresPer[guess]!)) {
      return { name: guess, millimetres: millimetresPer[guess]!, trusted: false };
    }
  }
  return null;
}

function isPlausible(heightMm: number): boolean {
  return heightMm >= plausibleHeightMm.low && heightMm <= plausibleHeightMm.high;
}
