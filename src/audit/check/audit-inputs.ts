import type { Norms } from '../../core/decision/norms.ts';
import type { LoadedMarkerSet } from '../../core/marker-set/parse-marker-set.ts';
import { toolVersion } from '../../core/version.ts';
import { sha256Of } from '../../node/sha256.ts';

/** A marker set that trials are checked against, with the norms that weigh its findings. */
export interface SetWithNorms {
  readonly markerSet: LoadedMarkerSet;
  readonly norms: Norms | null;
}

/** What every trial is checked against; of several sets, each trial takes the one that fits its labels best. */
export interface AuditInputs {
  readonly sets: readonly SetWithNorms[];
}

/**
 * What a result hangs on besides the trial and its session: a result with another fingerprint is not used.
 * Sixteen hexadecimal digits.
 */
export function fingerprintOf({ sets }: AuditInputs): string {
  const norms = sets.map(({ markerSet, norms }) => [markerSet.sha256, norms === null ? null : JSON.stringify(norms)]);
  return sha256Of(new TextEncoder().encode(JSON.stringify([resultFormat, toolVersion, norms]))).slice(0, 16);
}

/** Raised when what a result holds changes, so that older results are checked again. */
const resultFormat = 2;
