import type { MarkerSet } from '../../core/marker-set/marker-set.ts';
import { historyLine, parseHistory } from '../../core/practice/history.ts';
import { signOffLines } from '../../core/practice/sign-off-lines.ts';
import { traineeRecord } from '../../core/practice/trainee-record.ts';
import { escapeStrings } from '../../page/escape-strings.ts';
import type { PracticeAnswer, RecordOrder, SignOffOrder } from '../messages.ts';

/** Score, history and sign-offs by the history that the page holds. */
export function recordOf({ history, trainee, asOf }: RecordOrder['record'], set: MarkerSet): PracticeAnswer {
  return { record: escapeStrings(traineeRecord(parseHistory(history), trainee, set, asOf)) };
}

/** Lines to be added, or why it cannot be signed so. */
export function signOff({ history, wanted }: SignOffOrder['signOff'], set: MarkerSet): PracticeAnswer {
  const lines = signOffLines(wanted, parseHistory(history), set);
  return typeof lines === 'string' ? { failed: lines } : { signed: lines.map(historyLine) };
}
