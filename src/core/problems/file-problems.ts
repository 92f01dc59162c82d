import type { C3dError } from '../c3d/c3d-error.ts';
import type { C3dFile } from '../c3d/read-c3d.ts';
import type { Problem } from './problem.ts';

export function fileUnreadable(error: C3dError): Problem {
  return {
    code: 'file-unreadable',
    severity: 'error',
    markers: [],
    message: `Not readable as C3D at byte ${error.byteOffset}: found ${error.found}, expected ${error.expected}.`,
    remedy: `${error.remedy[0]!.toUpperCase()}${error.remedy.slice(1)}.`,
  };
}

/** A trial cut short is checked as far as it goes. */
export function fileTruncated(file: C3dFile): Problem[] {
  if (!file.truncated) return [];
  return [
    {
      code: 'file-truncated',
      severity: 'warning',
      markers: [],
      message: `The file ends before its data do; ${file.frameCount} frames were read.`,
      remedy: 'Copy or export the trial again; what is there was checked.',
    },
  ];
}
