/**
 * What a laboratory says should be on the body, as written in a marker-set file
 * (`shared/schemas/marker-set.schema.json`). Sides are written once: a sided entry stands for a right and a
 * left one, and inside it `@GT` means "GT of this side". `expandMarkerSet` turns the written form into the
 * form below, in which every label, point and rule is spelt out (`R_GT`, `thigh-wand-in-line.right`).
 *
 * Lengths are millimetres, angles degrees, axes the body's own: forward, left, up; `outward` is away from the
 * midline on either side.
 */

import type { AnyRuleSpec } from '../rule-kinds/all-rule-kinds.ts';
import type { Allowed } from '../rule-kinds/allowed.ts';
import type { Side } from '../rule-kinds/rule-kind.ts';
import type { ComparisonDefinition } from './comparison-definition.ts';
import type { Measure, MeasureUnit } from './measure.ts';
import type { ModelDefinition } from './model-definition.ts';

export type SideOrMiddle = Side | 'midline';

/** A direction on the body in which a marker may slide along the skin, or a component that is measured. */
export type BodyDirection = 'forward' | 'up' | 'outward' | 'left';

export interface MarkerDefinition {
  readonly label: string;
  /** Label without its side, as the set wrote it: `GT` for `R_GT`. */
  readonly stem: string;
  readonly side: SideOrMiddle;
  readonly landmark: string;
  /** What it is called at the bedside, after "the patient's left": `heel marker`, `thigh wand`. */
  readonly called: string;
  readonly aliases: readonly string[];
  readonly segment: string;
  /** The marker of the other side, null on the midline. */
  readonly mirror: string | null;
  readonly presence: 'required' | 'optional' | 'static-only';
  readonly placedBy: 'palpation' | 'eye';
  /**
   * What the marker does for the model: gives an axis in walking, gives one in the static trial only, only
   * tracks its segment, or only guides the placing of others. A marker that only tracks is never asked to move.
   */
  readonly purpose: 'axis-in-walking' | 'axis-in-static' | 'tracks' | 'guides';
  readonly diameterMm: number;
  readonly baseThicknessMm: number;
  /** Length from the wand's base to the marker centre; 0 for a marker on the skin. */
  readonly wandLengthMm: number;
  /** Repeat precision of the placing, 1 SD in each direction of its own segment. */
  readonly scatterMm: { readonly forward: number; readonly up: number; readonly outward: number };
  readonly scatterSource: string;
  /** How far it is off when it is misplaced, 1 SD along each slide, and the odds that it is. */
  readonly misplacement: { readonly sdMm: number; readonly odds: number };
  /** Directions along the skin in which it can be corrected: one for wands and heels, two for landmarks. */
  readonly slides: readonly BodyDirection[];
  /** Words at the bedside for each way along the skin, such as "toward the kneecap". */
  readonly toward: Readonly<Partial<Record<BodyDirection | 'backward' | 'down' | 'inward' | 'right', string>>>;
  /** How the landmark is found, and what confirms it. */
  readonly find: string;
  readonly confirm: string;
}

export interface SegmentDefinition {
  readonly name: string;
  readonly side: SideOrMiddle;
  /** Distal and proximal points of the long axis, which gives "up" along the segment; null: the vertical. */
  readonly longAxis: { readonly from: string; readonly to: string } | null;
  /** Points that give "forward", seen from above, for a foot; null: from `outward`. */
  readonly forward: { readonly from: string; readonly to: string } | null;
  /** View that gives "outward"; null: the body's own. */
  readonly outward: string | null;
}

export type HipCentreMethod = 'harrington-2007-simple' | 'hara-2016' | 'bell-1990' | 'davis-1991';

/** A point computed from others; each definition uses markers and virtual points written above it. */
export type VirtualPointDefinition = { readonly name: string } & (
  | { readonly construct: 'midpoint'; readonly of: readonly string[] }
  | { readonly construct: 'along-line'; readonly from: string; readonly to: string; readonly fraction: number }
  | { readonly construct: 'first-of'; readonly of: readonly string[] }
  | {
      readonly construct: 'hip-centre';
      readonly method: HipCentreMethod;
      readonly side: Side;
      readonly rightAsis: string;
      readonly leftAsis: string;
      readonly pelvisBack: string;
    }
);

/**
 * A direction along which something is judged, pointing outward on its side (left on the midline). Taken from two
 * points where both are there, else from what the assessor recorded, else estimated with an uncertainty.
 */
export interface ViewDefinition {
  readonly name: string;
  readonly side: Side;
  readonly from: string;
  readonly to: string;
  /** View from which it is turned when its own two points are not there; null: the body's own outward. */
  readonly base: string | null;
  /** How far it is expected to be turned outward from its base, with 1 SD. */
  readonly estimate: { readonly turnDeg: number; readonly sdDeg: number };
  /** Session fact that replaces the estimate. */
  readonly recordedAs: 'kneeTurnDeg' | 'tibialTorsionDeg' | null;
  /** Uncertainty of the recorded value, 1 SD. */
  readonly recordedSdDeg: number;
  /** Said beside a finding that leans on the estimate. */
  readonly caution: string;
  readonly source: string;
}

/** How a recorded number about the patient moves what a rule expects, and how far it widens the limit. */
export interface FactShift {
  readonly fact: NumberFact;
  readonly factor: number;
  readonly widen: number;
}

/** Recorded numbers that rules may lean on. Sided ones are taken for the rule's own side. */
export type NumberFact = 'legLengthDifferenceMm' | 'heelRaiseMm' | 'heelSoleDifferenceMm';

export type RuleDefinition = AnyRuleSpec & {
  readonly id: string;
  readonly title: string;
  readonly basis: 'construction' | 'anatomy';
  readonly essential: boolean;
  /**
   * `segment` rules stay within one part of the body, or neighbours that hardly move against each other in standing,
   * and can be judged on a restless person; `body` rules compare parts that do.
   */
  readonly spans: 'segment' | 'body';
  /** Markers that may move to satisfy the rule, the follower of the protocol first. */
  readonly mayMove: readonly string[];
  /** Stance items that can explain a failing value: then the advice is to stand again. */
  readonly explainedBy: readonly string[];
  /** Recorded facts about the patient under which this rule says nothing, such as `contracture.knee`. */
  readonly suspendedBy: readonly string[];
  readonly shiftedBy: readonly FactShift[];
  /** What is said when the value is above and below what is expected; `{value}` stands for the figure. */
  readonly saysAbove: string;
  readonly saysBelow: string;
  readonly why: string;
  /** Which way one looks to see it. */
  readonly seen: string;
  readonly source: string;
};

/** A look at the stance before any marker is doubted; measured by the same kinds as the rules. */
export type StanceDefinition = AnyRuleSpec & {
  readonly id: string;
  readonly title: string;
  readonly saysAbove: string;
  readonly saysBelow: string;
  readonly advice: string;
  /** Recorded facts that make a value outside the range expected. */
  readonly expectedWith: readonly string[];
  readonly source: string;
};

export interface VariantDefinition {
  readonly id: string;
  readonly title: string;
  readonly says: string;
  /**
   * Rules that say nothing while the variant is recorded: those of its own side, or of both sides while it is
   * recorded on one side alone. With `unless`, only while that fact is not recorded.
   */
  readonly suspends: readonly {
    readonly rule: string;
    readonly when: 'recorded' | 'one-side';
    readonly unless: NumberFact | null;
  }[];
  /** Other words for markers of that side. */
  readonly landmarks: Readonly<Record<string, string>>;
  /** New targets or ranges for rules of that side. */
  readonly allowed: Readonly<Record<string, { readonly allowed: Allowed; readonly borderline: number }>>;
}

/** Something that geometry does not tell, said beside the coverage of a report where all of its markers are on. */
export interface Unseen {
  readonly markers: readonly string[];
  readonly says: string;
}

export interface MarkerSet {
  readonly name: string;
  readonly version: string;
  readonly title: string;
  readonly markers: readonly MarkerDefinition[];
  readonly segments: readonly SegmentDefinition[];
  readonly virtualPoints: readonly VirtualPointDefinition[];
  readonly views: readonly ViewDefinition[];
  readonly bodyAxes: {
    readonly right: string;
    readonly left: string;
    /** Pairs of point groups: from the first toward the second is forward. Each group may name both sides, so that swapped sides do not turn it. */
    readonly forward: readonly {
      readonly from: readonly string[];
      readonly to: readonly string[];
      readonly says: string;
    }[];
    readonly low: readonly string[];
    readonly high: readonly string[];
    /** Where the floor lies under the lowest marker when the lab's zero does not tell. */
    readonly floorBelowLowestMm: number;
  };
  readonly rules: readonly RuleDefinition[];
  readonly stance: readonly StanceDefinition[];
  /** Labels that are easily exchanged on one side, tried when an order is broken. */
  readonly oftenSwapped: readonly (readonly [string, string])[];
  /** What must hold between any labels that are right: `first` is beyond `second` along the axis by more than `byMm`. */
  readonly orders: readonly {
    readonly first: string;
    readonly second: string;
    readonly axis: 'up' | 'forward' | 'outward';
    readonly byMm: number;
    readonly side: SideOrMiddle;
  }[];
  readonly placementOrder: readonly string[];
  /** C3D parameters (`GROUP:NAME`) that hold hand measurements, for those that the session file does not give. */
  readonly measurementsIn: readonly {
    readonly measure: Measure;
    readonly side: Side | null;
    readonly parameter: string;
    readonly unit: MeasureUnit;
  }[];
  /** What no rule sees although it matters to the data. */
  readonly unseen: readonly Unseen[];
  readonly variants: readonly VariantDefinition[];
  /** Patterns of the file names of standing trials; empty where the set names none. */
  readonly staticTrialNames: readonly string[];
  /** C3D parameters (`GROUP:NAME`) that hold codes for who, when and where; null where the set maps none. */
  readonly recordedIn: Readonly<Partial<Record<'assessor' | 'site' | 'subject' | 'on', string>>> | null;
  /** The lower-body model that the laboratory's data go through; null where the set names none. */
  readonly model: ModelDefinition | null;
  /** Hand measurements that the markers foretell as well. */
  readonly comparisons: readonly ComparisonDefinition[];
  readonly stillness: { readonly quietMm: number; readonly restlessMm: number; readonly source: string };
}
