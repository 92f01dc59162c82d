import type { Side } from '../rule-kinds/rule-kind.ts';

/**
 * What a moving knee says of its marked axis, and what the standing trial says of it.
 * `clear`: neither finds it turned by much. `agrees`: both find it turned, the same way and about as far. `only-moving`,
 * `only-static`: one finds it turned and the other does not. `differs`: both do, and contradict each other.
 * `other-cause`: varus-valgus follows flexion, and no turn of the axis takes most of it away.
 */
export type Agreement = 'clear' | 'agrees' | 'only-moving' | 'only-static' | 'differs' | 'other-cause';

/** One knee. Degrees; a turn is positive outward: the outer end of the marked axis too far back. */
export interface KneeCrosstalk {
  readonly side: Side;
  readonly frames: number;
  readonly flexionDeg: { readonly least: number; readonly most: number };
  /** Range of varus-valgus, varus positive. */
  readonly varusDeg: { readonly least: number; readonly most: number };
  /** Degrees of varus for a degree of flexion (least squares), and the correlation. */
  readonly slope: number;
  readonly correlation: number;
  readonly turnDeg: number;
  /** 1 SD: how the turn differs over the movement, and with it how knees and skin move by themselves. */
  readonly uncertaintyDeg: number;
  readonly scatterDeg: number;
  /** Share of the variance of varus-valgus that the turn explains. */
  readonly explained: number;
  /** Varus that the turn shows at 60 degrees of flexion. */
  readonly at60Deg: number;
  readonly staticTurnDeg: number;
  readonly staticMarkers: readonly string[];
  readonly agreement: Agreement;
  readonly says: string;
  /** What to do; empty where there is nothing to do. */
  readonly advice: string;
  /** At most 200 frames of the movement, in the order of time. */
  readonly series: readonly { readonly frame: number; readonly flexionDeg: number; readonly varusDeg: number }[];
}

export interface KneeNotUsable {
  readonly side: Side;
  /** A sentence. */
  readonly reason: string;
}

export interface Crosstalk {
  readonly verdict: 'clear' | 'adjust' | 'not-usable';
  readonly knees: readonly (KneeCrosstalk | KneeNotUsable)[];
  /** What stood in the way of reading the trials, sentences. */
  readonly problems: readonly string[];
}

export function isUsable(knee: KneeCrosstalk | KneeNotUsable): knee is KneeCrosstalk {
  return 'turnDeg' in knee;
}
