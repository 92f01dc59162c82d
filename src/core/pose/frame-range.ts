/** Frames somebody asks for in place of the quietest window, in the file's own numbering, both ends included. */
export interface FrameRange {
  readonly first: number;
  readonly last: number;
}
