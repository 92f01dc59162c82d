import type { Norms } from '../core/decision/norms.ts';
import type { LoadedMarkerSet } from '../core/marker-set/parse-marker-set.ts';
import type { Report } from '../core/report/report.ts';
import type { Session } from '../core/session/session.ts';

/** What every trial is checked against; goes to the worker once. */
export interface CheckInputs {
  readonly markerSet: LoadedMarkerSet;
  readonly session: Session;
  readonly norms: Norms | null;
}

/** To the worker: one trial. */
export interface CheckOrder {
  readonly id: number;
  readonly path: string;
}

/** From the worker: its report, always one. */
export interface CheckedOrder {
  readonly id: number;
  readonly report: Report;
}
