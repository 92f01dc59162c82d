import type { Measure } from '../marker-set/measure.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';

export type SheetCheckName =
  | 'missing'
  | 'unit-slip'
  | 'exchanged'
  | 'repeats'
  | 'plausible-band'
  | 'leg-against-stature'
  | 'left-against-right'
  | 'depth-against-ankle'
  | 'trial-against-sheet'
  | 'another-sheet';

/** One hand measurement of the sheet; null for one of the whole person. */
export interface ReadingName {
  readonly measure: Measure;
  readonly side: Side | null;
}

/** What was found about the sheet, which reading to repeat, and why it is doubted. */
export interface SheetFinding {
  readonly check: SheetCheckName;
  /**
   * `repeat`: take it again. `missing`: it was not taken. `note`: to know, nothing to do. `confirmed`: it was taken again
   * and found right.
   */
  readonly status: 'repeat' | 'missing' | 'note' | 'confirmed';
  /** The most doubtful first. */
  readonly readings: readonly ReadingName[];
  /** One sentence or two: what was read, what was expected, and the slip where it has a name. */
  readonly says: string;
  /** Where the limit comes from. */
  readonly source: string;
  /** That the first reading is wrong, weighed with the rest; null where nothing weighed it. */
  readonly probability: number | null;
  /** Who confirmed it, when, and what was found; empty where nobody did. */
  readonly settled: string;
}

export function sameReading(a: ReadingName, b: ReadingName): boolean {
  return a.measure === b.measure && a.side === b.side;
}

/** A finding that asks for its readings to be taken again. */
export function repeatOf(
  check: SheetCheckName,
  readings: readonly ReadingName[],
  says: string,
  source: string,
): SheetFinding {
  return {
    check,
    status: 'repeat',
    readings: readings.map(({ measure, side }) => ({ measure, side })),
    says,
    source,
    probability: null,
    settled: '',
  };
}
