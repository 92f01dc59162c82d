import type { MoveAction, RuleStatus } from '../report/report.ts';

/**
 * `done` came within the tolerance; `part` went part of the way; `not-moved` stayed; `too-far` went beyond; `other-way`
 * went away from what was asked; `settled` and `open` are told by the checks alone; `cannot-tell` by nothing.
 */
export type StepResult = 'done' | 'part' | 'not-moved' | 'too-far' | 'other-way' | 'settled' | 'open' | 'cannot-tell';

/** What became of one step that the capture before had asked for. */
export interface StepOutcome {
  /** Number in the report before. */
  readonly step: number;
  readonly action: MoveAction;
  readonly marker: string | null;
  readonly result: StepResult;
  /** Along the asked direction, mm; null where no distance was asked or the marker is not in both captures. */
  readonly askedMm: number | null;
  readonly movedMm: number | null;
  /** What was asked less what was moved; negative beyond it. */
  readonly remainsMm: number | null;
  /** Worst status now of the rules that the step was to bring back; null where none of them is in the new report. */
  readonly checkNow: RuleStatus | null;
  /** True where another marker that would explain the same was moved in place of the one that was named. */
  readonly instead: boolean;
  /** "R_TW, right thigh wand" */
  readonly subject: string;
  /** "moved 12 mm backward of the 14 mm asked; 2 mm remain" */
  readonly happened: string;
  /** "The check passes now."; empty where no check tells. */
  readonly check: string;
  /** The three as sentences. */
  readonly says: string;
}

/** An outcome before it is put into words. */
export type ToldStep = Omit<StepOutcome, 'subject' | 'happened' | 'check' | 'says'>;
