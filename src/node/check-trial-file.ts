import type { TrialSource } from '../core/report/assemble-report.ts';
import type { Problem, Report } from '../core/report/report.ts';
import { InputError } from './input-error.ts';
import { readTrialFile } from './read-trial-file.ts';

/** Checks the bytes of a trial against what is known of the laboratory and the patient. */
export type CheckBytes = (bytes: Uint8Array, source: TrialSource) => Report;

/**
 * Reads a trial and checks it. Never throws: a file that cannot be read, or a fault of the program, gives a report that
 * says so.
 * @param frames asked for in place of the quietest window
 * @param onFault is handed what was thrown
 */
export async function checkTrialFile(
  path: string,
  check: CheckBytes,
  frames?: TrialSource['frames'],
  onFault: (error: unknown) => void = () => {},
): Promise<Report> {
  let sha256 = '';
  try {
    const file = await readTrialFile(path);
    sha256 = file.sha256;
    return check(file.bytes, { path, sha256, ...(frames === undefined ? {} : { frames }) });
  } catch (error) {
    onFault(error);
    return reportFault({ path, sha256 }, check, error);
  }
}

/** The report of a trial of which nothing could be judged, with the reason as its only problem. */
export function reportFault(source: TrialSource, check: CheckBytes, error: unknown): Report {
  const emptied = check(new Uint8Array(0), source);
  return { ...emptied, verdict: 'not-assessable', problems: [problemFrom(error)] };
}

function problemFrom(error: unknown): Problem {
  const base = { code: 'file-unreadable', severity: 'error', markers: [] } as const;
  if (error instanceof InputError) {
    return {
      ...base,
      message: `${error.found}.`,
      remedy: `${error.remedy[0]!.toUpperCase()}${error.remedy.slice(1)}.`,
    };
  }
  return {
    ...base,
    message: `The check of this trial stopped at a fault of the program: ${error instanceof Error ? error.message : String(error)}.`,
    remedy: 'Report it with the output of --debug, and rely on palpation and the protocol meanwhile.',
  };
}
