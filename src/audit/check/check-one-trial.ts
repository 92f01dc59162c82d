import { readC3d } from '../../core/c3d/read-c3d.ts';
import { checkTrial } from '../../core/check-trial.ts';
import type { Report } from '../../core/report/report.ts';
import { InputError } from '../../node/input-error.ts';
import { readTrialFileAtOnce } from '../../node/read-trial-file.ts';
import { recordedVisit } from '../trial/recorded-visit.ts';
import { unknownVisit, type Visit } from '../trial/visit.ts';
import type { AuditInputs, SetWithNorms } from './audit-inputs.ts';
import { chooseMarkerSet } from './choose-marker-set.ts';
import { condenseReport } from './condense-report.ts';
import { readSessionBeside, saidBy } from './session-beside.ts';
import type { TrialResult } from './trial-result.ts';

/** A trial with its report in full, for whoever needs more than the result. */
export interface CheckedTrial {
  readonly result: TrialResult;
  readonly report: Report;
}

/**
 * Reads a trial and the session beside it and checks the one against the other. Never throws: a file that cannot be
 * read, or a fault of the program on it, is a result that says so. Its `sha256` is empty where no byte could be read.
 */
export function checkOneTrial(path: string, inputs: AuditInputs): CheckedTrial {
  const beside = readSessionBeside(path);
  const kept = {
    sessionSha256: beside.sha256,
    session: beside.sha256 === null || beside.fault !== null ? null : saidBy(beside.session),
    sessionFault: beside.fault,
  };
  const condense = (report: Report, { markerSet }: SetWithNorms, recorded: Visit, fault: string | null) => {
    const condensed = condenseReport(report, markerSet);
    return { report, result: { ...condensed, ...kept, recorded, fault: fault ?? condensed.fault } };
  };
  let sha256 = '';
  const check = (bytes: Uint8Array, { markerSet, norms }: SetWithNorms): Report =>
    checkTrial(bytes, markerSet, beside.session, { path, sha256 }, norms);
  try {
    const file = readTrialFileAtOnce(path);
    sha256 = file.sha256;
    const opened = openQuietly(file.bytes);
    const set = opened === null ? inputs.sets[0]! : chooseMarkerSet(inputs.sets, opened.labels, opened.pointCount);
    const recorded = opened === null ? unknownVisit : recordedVisit(opened.groups, set.markerSet);
    return condense(check(file.bytes, set), set, recorded, null);
  } catch (error) {
    const fault =
      error instanceof InputError
        ? `${error.found}.`
        : `The check of this trial stopped at a fault of the program: ${error instanceof Error ? error.message : String(error)}.`;
    return condense(check(new Uint8Array(0), inputs.sets[0]!), inputs.sets[0]!, unknownVisit, fault);
  }
}

/** Null where it is no C3D file: the check says why. */
function openQuietly(bytes: Uint8Array) {
  try {
    return readC3d(bytes);
  } catch {
    return null;
  }
}
