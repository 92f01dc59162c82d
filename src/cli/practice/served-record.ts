import { readCode } from '../../audit/trial/read-code.ts';
import type { MarkerSet } from '../../core/marker-set/marker-set.ts';
import { signOffLines } from '../../core/practice/sign-off-lines.ts';
import { traineeRecord } from '../../core/practice/trainee-record.ts';
import { isDate } from '../../core/session/is-date.ts';
import { escapeStrings } from '../../page/escape-strings.ts';
import { appendHistory, readHistory } from '../../practice/history-file.ts';
import { localDay } from '../../practice/local-time.ts';
import type { PracticeRounds } from '../../practice/practice-server.ts';

/** The record on the served page, by the history on the disk; nothing where no trainee is named. */
export function servedRecord(
  path: string,
  trainee: string | undefined,
  set: MarkerSet,
): Pick<PracticeRounds, 'record' | 'signOff'> {
  const named = (): string => {
    if (trainee !== undefined) return trainee;
    throw new Error('Nothing is kept: start setsquare practice with --trainee CODE.');
  };
  return {
    async record() {
      return escapeStrings(traineeRecord(await readHistory(path), named(), set, localDay(new Date())));
    },
    async signOff({ landmarks, signer, due, reason }) {
      if (readCode('assessor', signer) === null) throw new Error('Who signs is a code without spaces, never a name.');
      if (!/^\d{4}-\d{2}-\d{2}$/.test(due) || !isDate(due)) throw new Error('The due day is none; choose another.');
      if (!landmarks.every((landmark) => set.markers.some(({ stem }) => stem === landmark))) {
        throw new Error('This landmark is none of the marker set.');
      }
      const wanted = { trainee: named(), signer, landmarks, on: localDay(new Date()), due, reason };
      const lines = signOffLines(wanted, await readHistory(path), set);
      if (typeof lines === 'string') throw new Error(lines);
      appendHistory(path, ...lines);
    },
  };
}
