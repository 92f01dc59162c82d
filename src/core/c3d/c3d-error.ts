/** Why a file cannot be read as C3D at all; anything that can be read in part is read with warnings instead. */
export type C3dErrorCode = 'empty' | 'too-short' | 'not-c3d';

/** What was met, and where. `byteOffset` counts from the start of the file. */
export interface C3dErrorDetails {
  byteOffset: number;
  found: string;
  expected: string;
  remedy: string;
}

/** A file that cannot be read as C3D. The message is one sentence: where, found, expected, what to do. */
export class C3dError extends Error {
  override readonly name = 'C3dError';
  readonly code: C3dErrorCode;
  readonly byteOffset: number;
  readonly found: string;
  readonly expected: string;
  readonly remedy: string;

  constructor(code: C3dErrorCode, details: C3dErrorDetails) {
    const { byteOffset, found, expected, remedy } = details;
    super(`Not readable as C3D at byte ${byteOffset}: found ${found}, expected ${expected}; ${remedy}.`);
    this.code = code;
    this.byteOffset = byteOffset;
    this.found = found;
    this.expected = expected;
    this.remedy = remedy;
  }
}
