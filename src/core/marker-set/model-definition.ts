import type { Side } from '../rule-kinds/rule-kind.ts';

/**
 * Which points of the set the conventional lower-body model reads, for one side. Marker radius and base plate come from
 * the markers themselves, the hip regression and the pelvis markers from the hip centre.
 */
export interface LegDefinition {
  /** Virtual point of this side that a published regression gives (construct `hip-centre`). */
  readonly hipCentre: string;
  readonly knee: ModelJointDefinition;
  readonly ankle: ModelJointDefinition;
  /** Line of the foot from heel to forefoot; `flat`: taken as level in the static trial, whatever the heel marker does. */
  readonly foot: { readonly from: string; readonly to: string; readonly flat: boolean };
}

export interface ModelJointDefinition {
  /** Marker on the outer side of the joint. */
  readonly lateral: string;
  /** Marker on the inner side, on in the static trial; null where the protocol has none. */
  readonly medial: string | null;
  /** Wand or marker that carries the joint's axis in walking; null where the protocol has none. */
  readonly wand: string | null;
  /**
   * What gives the joint's axis: the wand as it stands, or the medial marker in the static trial, from which the wand is
   * then counted as turned (the static offset).
   */
  readonly axisFrom: 'wand' | 'medial';
}

/** The model of a set, both sides spelt out. */
export interface ModelDefinition {
  readonly right: LegDefinition;
  readonly left: LegDefinition;
  readonly posture: readonly PostureDefinition[];
}

/** Angles of the model that a posture item may judge: joint and motion. */
export const postureAngles = [
  'pelvis.tilt',
  'pelvis.obliquity',
  'hip.flexion',
  'hip.adduction',
  'hip.rotation',
  'knee.flexion',
  'knee.varus',
  'knee.rotation',
  'ankle.dorsiflexion',
  'ankle.rotation',
  'foot.progression',
] as const;
export type PostureAngle = (typeof postureAngles)[number];

/** A look at the stance by an angle of the model, with the range of the population. */
export interface PostureDefinition {
  readonly id: string;
  readonly title: string;
  readonly side: Side | 'midline';
  readonly angle: PostureAngle;
  readonly unit: 'deg';
  readonly allowed: { readonly range: readonly [number, number] };
  readonly borderline: number;
  readonly saysAbove: string;
  readonly saysBelow: string;
  readonly advice: string;
  readonly expectedWith: readonly string[];
  readonly source: string;
}

/** The model as a set writes it: once for both sides, with `@LE` for the marker of either. */
export interface WrittenModel {
  readonly hipCentre: string;
  readonly knee: WrittenModelJoint;
  readonly ankle: WrittenModelJoint;
  readonly foot: { readonly from: string; readonly to: string; readonly flat?: boolean };
  readonly posture?: readonly WrittenPosture[];
}

/** `sided`: written once for a right and a left one. */
export type WrittenPosture = Omit<PostureDefinition, 'side' | 'unit' | 'expectedWith'> & {
  readonly sided?: boolean;
  readonly expectedWith?: readonly string[];
};

type WrittenModelJoint = Pick<ModelJointDefinition, 'lateral' | 'axisFrom'> &
  Partial<Pick<ModelJointDefinition, 'medial' | 'wand'>>;
