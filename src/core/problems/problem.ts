export type ProblemCode =
  | 'file-unreadable'
  | 'file-truncated'
  | 'marker-missing'
  | 'marker-gap'
  | 'marker-jump'
  | 'labels-swapped'
  | 'labels-duplicate'
  | 'not-still'
  | 'facing-unclear'
  | 'units-implausible'
  | 'vertical-unclear'
  | 'frames-outside'
  | 'frames-too-few'
  | 'plate-unusable'
  | 'plates-against-mass'
  | 'plate-position-doubtful';

export interface Problem {
  readonly code: ProblemCode;
  readonly severity: 'error' | 'warning';
  readonly markers: readonly string[];
  /** One sentence: what is wrong, where, found, expected. */
  readonly message: string;
  /** One sentence: what to do about it. */
  readonly remedy: string;
}
