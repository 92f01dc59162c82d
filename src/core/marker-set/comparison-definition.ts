import type { Side } from '../rule-kinds/rule-kind.ts';
import type { Measure } from './measure.ts';

/** How markers foretell what a hand measurement should have read. */
export const comparisonKinds = ['between-markers', 'along-leg', 'pelvic-depth', 'stature-from-height'] as const;
export type ComparisonKind = (typeof comparisonKinds)[number];

/**
 * A hand measurement that the markers of a standing trial foretell as well: the sheet is compared with the trial, and
 * where the two do not go together, reading and markers are weighed against each other.
 */
export interface ComparisonDefinition {
  readonly id: string;
  readonly title: string;
  readonly side: Side | null;
  readonly measure: Measure;
  readonly kind: ComparisonKind;
  /**
   * What the kind reads: the two ends of `between-markers`; ASIS, knee and ankle of `along-leg`; ASIS and trochanter of
   * `pelvic-depth`; the one marker of `stature-from-height`.
   */
  readonly markers: readonly string[];
  /** Share of each end marker's radius and base plate that lies in the line measured; 0 where the hand measures to the marker's level. */
  readonly coverShare: number;
  /** Soft tissue between what the instrument presses on and the markers' bases, over the whole line, mm. */
  readonly tissueMm: number;
  /** Spread of reading less prediction among well-marked people that were measured right, 1 SD, mm: each by itself. */
  readonly spreadMm: number;
  /** The same, for what a person's two sides share, mm. */
  readonly alikeMm: number;
  /** Which published height `stature-from-height` goes by; null for other kinds. */
  readonly height: 'cervicale' | 'trochanterion' | null;
  readonly source: string;
}

/** A comparison as a set writes it: once for both sides where `sided`. */
export type WrittenComparison = Omit<
  ComparisonDefinition,
  'side' | 'coverShare' | 'tissueMm' | 'alikeMm' | 'height'
> & {
  readonly sided?: boolean;
} & Partial<Pick<ComparisonDefinition, 'coverShare' | 'tissueMm' | 'alikeMm'>> & {
    readonly height?: 'cervicale' | 'trochanterion';
  };
