import type { AnyRuleSpec } from '../rule-kinds/all-rule-kinds.ts';
import type { WrittenComparison } from './comparison-definition.ts';
import type { MarkerDefinition, MarkerSet } from './marker-set.ts';
import type { WrittenModel } from './model-definition.ts';

/** An entry that may be written once for both sides. */
export interface WrittenEntry {
  readonly sided?: boolean;
}

type Sided<T> = T & WrittenEntry;

/** A marker set as its file holds it, after validation; `expandMarkerSet` spells it out. */
export interface WrittenMarkerSet {
  readonly format: 'setsquare-marker-set/1';
  readonly name: string;
  readonly version: string;
  readonly title: string;
  readonly markers: readonly Sided<
    Omit<MarkerDefinition, 'stem' | 'side' | 'mirror' | 'aliases'> & {
      readonly aliases?: readonly string[] | { readonly right: readonly string[]; readonly left: readonly string[] };
    }
  >[];
  readonly segments: readonly Sided<{ readonly name: string }>[];
  readonly virtualPoints: readonly Sided<{ readonly name: string; readonly construct: string }>[];
  readonly views: readonly Sided<{ readonly name: string }>[];
  readonly bodyAxes: MarkerSet['bodyAxes'];
  readonly rules: readonly WrittenRule[];
  readonly stance: readonly WrittenRule[];
  readonly oftenSwapped: readonly (readonly [string, string])[];
  readonly orders: readonly Sided<{ readonly first: string; readonly second: string }>[];
  readonly placementOrder: readonly string[];
  readonly variants: readonly (Omit<MarkerSet['variants'][number], 'suspends'> & {
    readonly suspends: readonly (Omit<MarkerSet['variants'][number]['suspends'][number], 'unless'> & {
      readonly unless?: MarkerSet['variants'][number]['suspends'][number]['unless'];
    })[];
  })[];
  readonly stillness: MarkerSet['stillness'];
  readonly measurementsIn?: readonly Partial<MarkerSet['measurementsIn'][number]>[];
  readonly unseen?: MarkerSet['unseen'];
  readonly staticTrialNames?: MarkerSet['staticTrialNames'];
  readonly recordedIn?: NonNullable<MarkerSet['recordedIn']>;
  readonly model?: WrittenModel;
  readonly comparisons?: readonly WrittenComparison[];
}

/** A rule or stance item as written. */
export type WrittenRule = Sided<{
  readonly id: string;
  readonly kind: AnyRuleSpec['kind'];
  readonly side?: 'both' | 'midline';
}>;
