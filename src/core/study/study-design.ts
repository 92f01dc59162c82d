/** One placing of every marker, and where the standing trial of it lies. Codes, never names. */
export interface PlannedCapture {
  readonly subject: string;
  readonly assessor: string;
  /** Which placing by this assessor on this subject. */
  readonly session: string;
  /** Paths as written, from the folder of the design. */
  readonly trial: string;
  readonly sessionFile: string | null;
  readonly on: string | null;
}

/** Design of a repeatability study, as its file holds it. */
export interface StudyDesign {
  readonly title: string | null;
  readonly site: string | null;
  /** A shipped set by name, or a path from the folder of the design; null where the file names none. */
  readonly markerSet: string | null;
  readonly skinMarksRemoved: boolean | null;
  readonly nextDue: string | null;
  readonly captures: readonly PlannedCapture[];
}
