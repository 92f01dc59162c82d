import type { MarkerSet } from '../../core/marker-set/marker-set.ts';
import { formatDues, formatRecord } from '../../core/practice/format-record.ts';
import type { History } from '../../core/practice/history.ts';
import { landmarkWords } from '../../core/practice/session-summary.ts';
import { signOffStates } from '../../core/practice/sign-off-state.ts';
import { type TraineeRecord, traineeRecord } from '../../core/practice/trainee-record.ts';
import { counted } from '../../core/report/counted.ts';
import { jsonText } from '../../core/report/json-text.ts';
import { ownName } from '../../core/report/own-name.ts';
import { writeOutputAtomically } from '../../node/write-output-atomically.ts';
import { readHistory } from '../../practice/history-file.ts';
import { localDay } from '../../practice/local-time.ts';
import type { CommandContext } from '../command-context.ts';
import { readMarkerSet } from '../read-inputs.ts';
import { UsageError } from '../usage-error.ts';
import { dayOption } from './day-option.ts';
import { personCode } from './person-code.ts';

export interface RecordOptions {
  readonly trainee?: string;
  readonly history: string;
  readonly markerSet: string;
  readonly asOf?: string;
  readonly format: 'text' | 'json' | 'html';
  readonly output?: string;
}

/**
 * Score, history and sign-offs of a trainee; without one, what is due of everybody. Changes nothing.
 * @throws {UsageError | InputError} before anything is printed
 */
export async function recordCommand(options: RecordOptions, context: CommandContext): Promise<number> {
  const { channels, engine } = context;
  const trainee = options.trainee === undefined ? null : personCode('--trainee', options.trainee);
  const asOf = options.asOf === undefined ? localDay(new Date()) : dayOption('--as-of', options.asOf);
  const set = await readMarkerSet(await engine.check(), options.markerSet);
  const history = await knownHistory(options.history, context);
  const page = options.output === undefined ? undefined : { columns: 80, color: false };
  const text = await formatted(history, set, trainee, asOf, options, page ?? textOptions(context));
  if (options.output === undefined) await channels.report(text);
  else await writeOutputAtomically(options.output, text);
  return 0;
}

function textOptions({ columns, color }: CommandContext): { readonly columns: number; readonly color: boolean } {
  return { columns, color: color(undefined) };
}

async function formatted(
  history: History,
  set: MarkerSet,
  trainee: string | null,
  asOf: string,
  { format }: RecordOptions,
  page: { readonly columns: number; readonly color: boolean },
): Promise<string> {
  if (trainee === null) {
    const states = signOffStates(history, asOf).map((one) => ({ ...one, called: landmarkWords(set, one.landmark) }));
    if (format === 'html') throw new UsageError('--format html is the record of one trainee; name --trainee CODE.');
    return format === 'json'
      ? jsonText({ format: 'setsquare-sign-offs/1', asOf, signOffs: states })
      : formatDues(states, asOf, page);
  }
  const record: TraineeRecord = traineeRecord(history, trainee, set, asOf);
  if (format === 'json') return jsonText({ format: 'setsquare-practice-record/1', ...record });
  if (format === 'text') return formatRecord(record, page);
  const { renderRecordPage } = await import('../../page/practice/render-record-page.tsx');
  return renderRecordPage(record);
}

/** The history, which has to be there; lines that cannot be read are told. @throws {UsageError | InputError} */
export async function knownHistory(path: string, { channels }: CommandContext): Promise<History> {
  const history = await readHistory(path);
  if (history.unread > 0) {
    channels.say(`${counted(history.unread, 'line')} of ${ownName(path)} cannot be read and count for nothing.`);
  }
  if (history.lines.length === 0) {
    throw new UsageError(`${ownName(path)} holds no practice yet; practise with --trainee CODE, or name --history.`);
  }
  return history;
}
