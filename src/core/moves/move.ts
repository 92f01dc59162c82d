import type { DataChanges } from '../gait-model/data-changes.ts';

export type MoveAction = 'move' | 'palpate-again' | 'measure-again' | 'stand-again' | 'relabel';

/** Body axes, mm. Midline markers have `left` in place of `outward`. */
export type MoveVector =
  | { readonly forward: number; readonly up: number; readonly outward: number }
  | { readonly forward: number; readonly up: number; readonly left: number };

/** Markers that nothing tells apart, and the look that would settle most. */
export interface Tie {
  readonly markers: readonly string[];
  readonly settledBy: string;
  readonly says: string;
}

export interface MoveProposal {
  readonly action: MoveAction;
  readonly marker?: string;
  readonly landmark?: string;
  /** What the marker is called at the bedside: `heel marker`, `thigh wand`. */
  readonly called?: string;
  readonly side?: 'right' | 'left' | 'midline';
  readonly mm?: MoveVector;
  readonly along?: string;
  /** The same in parts, each with its distance as it is told at the bedside. */
  readonly ways?: readonly { readonly mm: number; readonly along: string }[];
  /** Wands: degrees about the bone, and how far tip and base go. */
  readonly turnDeg?: number;
  readonly tipMm?: number;
  readonly baseMm?: number;
  /** Nothing tells which side is off: the landmark is to be palpated on both. */
  readonly bothSides?: true;
  readonly distanceMm?: number;
  readonly uncertaintyMm?: number;
  readonly probability: number | null;
  /** What the marker's way changes in the data; absent where no marker moves or the set names no model. */
  readonly changes?: DataChanges & { readonly says: string };
  /** Rules that this step brings back within their limits. */
  readonly resolves: readonly string[];
  readonly instruction: string;
  /** What was measured that asks for the step, in words; absent where the instruction says it. */
  readonly finding?: string;
  readonly confirmBy: string;
  readonly why: string;
}

export interface Move extends MoveProposal {
  readonly step: number;
  readonly dependsOn: readonly number[];
  readonly alternatives: readonly MoveProposal[];
  /** Null where the marker stands out from its rivals, or nothing weighed it. */
  readonly tie: Tie | null;
}
