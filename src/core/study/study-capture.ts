import type { StandingBody } from '../pose/standing-body.ts';
import type { Session } from '../session/session.ts';

/** Who marked whom, and which time. */
export interface Placing {
  readonly subject: string;
  readonly assessor: string;
  readonly session: string;
}

/** One placing of every marker, and the body that stood with them. */
export interface StudyCapture extends Placing {
  readonly on: string | null;
  readonly body: StandingBody;
  /** What was recorded of the subject that day. */
  readonly recorded: Session;
}
