import type { C3dError } from '../c3d/c3d-error.ts';
import type { C3dFile } from '../c3d/read-c3d.ts';
import type { Problem } from './problem.ts';

export function fileUnreadable(error: C3dError): Problem {
  return {
    code: 'file-unreadable',
    severity: 'error',
    markers: [],
    message: error.message,
    remedy: 'Export the trial again as C3D, or copy it again.',
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
