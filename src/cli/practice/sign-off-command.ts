import type { MarkerSet } from '../../core/marker-set/marker-set.ts';
import type { HistoryLine } from '../../core/practice/history.ts';
import { landmarkWords } from '../../core/practice/session-summary.ts';
import { againstWriting, signOffLines } from '../../core/practice/sign-off-lines.ts';
import { signOffStates } from '../../core/practice/sign-off-state.ts';
import { TextPage } from '../../core/report/text-page.ts';
import { appendHistory } from '../../practice/history-file.ts';
import { localDay } from '../../practice/local-time.ts';
import type { CommandContext } from '../command-context.ts';
import { readMarkerSet } from '../read-inputs.ts';
import { UsageError } from '../usage-error.ts';
import { dayOption } from './day-option.ts';
import { personCode } from './person-code.ts';
import { knownHistory } from './record-command.ts';

export interface SignOffOptions {
  readonly trainee?: string;
  readonly signer?: string;
  readonly landmark?: readonly string[];
  readonly due?: string;
  readonly on?: string;
  readonly reason?: string;
  readonly withdraw?: boolean;
  readonly history: string;
  readonly markerSet: string;
}

/**
 * Writes down that somebody stands for a trainee finding a landmark, or no longer does.
 * @throws {UsageError | InputError} with nothing written
 */
export async function signOffCommand(options: SignOffOptions, context: CommandContext): Promise<number> {
  const trainee = personCode('--trainee', needed('--trainee', options.trainee, 'the code of who is signed off'));
  const signer = personCode('--signer', needed('--signer', options.signer, 'the code of who signs'));
  const on = options.on === undefined ? localDay(new Date()) : dayOption('--on', options.on);
  const set = await readMarkerSet(await context.engine.check(), options.markerSet);
  const named = needed('--landmark', options.landmark, 'a landmark');
  const landmarks = [...new Set(named.map((name) => stemOf(name, set)))];
  const history = await knownHistory(options.history, context);
  const wanted = { trainee, signer, landmarks, on, reason: (options.reason ?? '').trim() };
  let lines: readonly HistoryLine[];
  if (options.withdraw === true) {
    const fault = againstWriting(wanted);
    if (fault !== '') throw new UsageError(fault);
    if (wanted.reason === '') throw new UsageError('--withdraw needs --reason: say why it no longer stands.');
    const standing = signOffStates(history, on).filter((one) => one.trainee === trainee && one.state !== 'withdrawn');
    lines = landmarks.map((landmark) => {
      if (!standing.some((one) => one.landmark === landmark)) {
        throw new UsageError(`The ${landmarkWords(set, landmark)} of ${trainee} is not signed off on ${on}.`);
      }
      return { kind: 'withdrawal', trainee, signer, landmark, on, reason: wanted.reason };
    });
  } else {
    const due = dayOption('--due', needed('--due', options.due, 'the day on which it is due again'));
    const signed = signOffLines({ ...wanted, due }, history, set);
    if (typeof signed === 'string') throw new UsageError(signed);
    lines = signed;
  }
  appendHistory(options.history, ...lines);
  const page = new TextPage({ columns: context.columns, color: context.color(undefined) });
  for (const landmark of landmarks) {
    page.paragraph(
      options.withdraw === true
        ? `${landmarkWords(set, landmark)} of ${trainee}: withdrawn by ${signer} on ${on}.`
        : `${landmarkWords(set, landmark)} of ${trainee}: signed off by ${signer} on ${on}, due ${options.due}.`,
    );
  }
  await context.channels.report(page.toString());
  return 0;
}

function needed<Value>(flag: string, value: Value | undefined, what: string): Value {
  if (value === undefined) throw new UsageError(`${flag} is missing: give ${what}.`);
  return value;
}

/** A landmark by its stem, or by the label of a marker on either side. @throws {UsageError} for any other */
function stemOf(name: string, set: MarkerSet): string {
  const wanted = name.toLowerCase();
  const marker = set.markers.find(({ stem, label }) => stem.toLowerCase() === wanted || label.toLowerCase() === wanted);
  if (marker !== undefined) return marker.stem;
  const stems = [...new Set(set.markers.map(({ stem }) => stem))];
  throw new UsageError(`--landmark is "${name}", expected one of ${stems.join(', ')}.`);
}
