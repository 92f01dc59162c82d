import type { BodyDirection } from '../../src/core/marker-set/marker-set.ts';

/** How precisely markers are put on, 1 SD. */
export interface Hand {
  readonly name: string;
  /** Along each direction in the skin; null: by landmark, as published. */
  readonly palpatedMm: number | null;
  /** At the tip of a wand, round the bone. */
  readonly wandMm: number;
  readonly heelMm: number;
}

/** A hand that finds skin marks again, one as careful as the spread of real trials allows, one as published. */
export const hands: readonly Hand[] = [
  { name: '1.5 mm', palpatedMm: 1.5, wandMm: 1.5, heelMm: 1.5 },
  { name: '4 mm', palpatedMm: 4, wandMm: 3, heelMm: 2.5 },
  { name: 'palpation as published', palpatedMm: null, wandMm: 3, heelMm: 2.5 },
];

type Figures = Readonly<Partial<Record<BodyDirection, number>>>;

/**
 * Palpation as published, mm along each direction in the skin. Over the pelvis and leg one examiner scatters by 6 to 21 mm
 * (root mean square distance from the mean; Della Croce 1999, from memory), worst at the trochanter, 15 to 20 mm
 * (Della Croce 2005); which landmark lies where between is from memory. The ASIS and the sacral marker are kept so low
 * that the pelvis spreads as on real standing trials (difference in height 8.6 mm, sacral marker off the middle 5.3 mm).
 */
const published: Readonly<Record<string, Figures>> = {
  C7: { outward: 5, up: 6 },
  ACR: { forward: 6, outward: 6 },
  ASIS: { outward: 5, up: 4 },
  S1: { outward: 5, up: 8.5 },
  GT: { forward: 12.5, up: 12.5 },
  LE: { forward: 5.5, up: 5.5 },
  ME: { forward: 6, up: 6 },
  HF: { forward: 5.5, up: 6 },
  LM: { forward: 4.5, up: 4.5 },
  MM: { forward: 4.5, up: 4.5 },
  MET5: { forward: 4.5, up: 4.5 },
};

export function palpatedSdMm(hand: Hand, label: string, direction: BodyDirection): number {
  if (hand.palpatedMm !== null) return hand.palpatedMm;
  const figure = published[label.replace(/^[RL]_/, '')]?.[direction === 'left' ? 'outward' : direction];
  if (figure === undefined) throw new RangeError(`No palpation figure for ${label} ${direction}.`);
  return figure;
}
