import { validateStudy } from '../schemas/compiled/study.js';
import { faultAt } from '../schemas/fault.ts';
import { readValidated } from '../schemas/read-validated.ts';
import { quoted } from '../schemas/show-value.ts';
import { isDate } from '../session/is-date.ts';
import type { PlannedCapture, StudyDesign } from './study-design.ts';
import { StudyError } from './study-error.ts';

export { StudyError };

type WrittenStudy = Partial<Omit<StudyDesign, 'captures'>> & {
  readonly captures: readonly (Pick<PlannedCapture, 'subject' | 'assessor' | 'session' | 'trial'> &
    Partial<PlannedCapture>)[];
};

/**
 * Reads the design of a study (`shared/schemas/study.schema.json`) of at most 1,000,000 bytes.
 * @throws StudyError naming the JSON pointer of the first fault, in one sentence.
 */
export function parseStudy(text: string): StudyDesign {
  const read = readValidated('study', text, validateStudy);
  if ('fault' in read) throw new StudyError(read.fault.pointer, read.fault.message);
  const written = read.data as WrittenStudy;
  checkStudy(written);
  return {
    title: written.title ?? null,
    site: written.site ?? null,
    markerSet: written.markerSet ?? null,
    skinMarksRemoved: written.skinMarksRemoved ?? null,
    nextDue: written.nextDue ?? null,
    captures: written.captures.map(({ subject, assessor, session, trial, sessionFile, on }) => ({
      subject,
      assessor,
      session,
      trial,
      sessionFile: sessionFile ?? null,
      on: on ?? null,
    })),
  };
}

/** What a schema cannot see: days that no calendar has, and one placing written twice. */
function checkStudy(written: WrittenStudy): void {
  const refuse = (pointer: string, trouble: string): never => {
    const fault = faultAt('study', written, pointer, trouble);
    throw new StudyError(fault.pointer, fault.message);
  };
  const refuseNoDay = (pointer: string, day: string | null | undefined): void => {
    if (day !== undefined && day !== null && !isDate(day))
      refuse(pointer, `found ${quoted(day)}, which is no day of the calendar; correct it`);
  };
  refuseNoDay('/nextDue', written.nextDue);
  const placings = new Map<string, number>();
  const trials = new Map<string, number>();
  written.captures.forEach(({ subject, assessor, session, trial, on }, index) => {
    refuseNoDay(`/captures/${index}/on`, on);
    const placing = JSON.stringify([subject, assessor, session]);
    const before = placings.get(placing);
    if (before !== undefined)
      refuse(
        `/captures/${index}`,
        `found the same subject, assessor and session as in /captures/${before}, expected one capture of each placing; give it a session of its own, or take one out`,
      );
    const same = trials.get(trial);
    if (same !== undefined)
      refuse(
        `/captures/${index}/trial`,
        `found the trial of /captures/${same} again, which would count as perfect agreement; name the trial that was meant`,
      );
    placings.set(placing, index);
    trials.set(trial, index);
  });
}
