import { isSameRecording } from '../../core/captures/same-recording.ts';
import { checkTrial } from '../../core/check-trial.ts';
import { doubtPlacings } from '../../core/practice/doubt-placings.ts';
import { formatRepeat } from '../../core/practice/format-repeat.ts';
import { repeatedPlacement } from '../../core/practice/repeat-placing.ts';
import { tellRepeat } from '../../core/practice/repeat-rows.ts';
import { repeatLine, roundRepeat } from '../../core/practice/round-repeat.ts';
import { jsonText } from '../../core/report/json-text.ts';
import { ownName } from '../../core/report/own-name.ts';
import { appendHistory } from '../../practice/history-file.ts';
import { localTime } from '../../practice/local-time.ts';
import type { CommandContext } from '../command-context.ts';
import { readMarkerSet, readSession } from '../read-inputs.ts';
import { readNeededTrial, standIn } from '../stand-in.ts';
import { UsageError } from '../usage-error.ts';
import { personCode } from './person-code.ts';

export interface RepeatOptions {
  readonly trainee?: string;
  readonly history: string;
  readonly markerSet: string;
  readonly session?: string;
  readonly format: 'text' | 'json';
}

/**
 * The spread of one subject's repeated placings; kept in the history of a trainee.
 * @throws {UsageError | InputError} with nothing written
 */
export async function repeatCommand(
  paths: readonly string[],
  options: RepeatOptions,
  context: CommandContext,
): Promise<number> {
  const trainee = options.trainee === undefined ? null : personCode('--trainee', options.trainee);
  if (paths.length < 2) {
    throw new UsageError('repeat needs two standing trials of one subject who was marked anew, or more; give them.');
  }
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, options.markerSet);
  const session = await readSession(engine, options.session);
  const placings = [];
  for (const path of paths) {
    context.signal.throwIfAborted();
    const { bytes, sha256 } = await readNeededTrial(path);
    const { body } = standIn(path, bytes, set, session);
    placings.push({ body, report: checkTrial(bytes, set, session, { path: '', sha256 }) });
  }
  for (const [index, { report }] of placings.entries()) {
    const same = placings.slice(0, index).findIndex((earlier) => isSameRecording(earlier.report, report));
    if (same >= 0) {
      throw new UsageError(
        `${ownName(paths[same]!)} and ${ownName(paths[index]!)} are one recording; give a trial of each placing.`,
      );
    }
  }
  const doubts = doubtPlacings(placings.map(({ report }) => report));
  const repeated = repeatedPlacement(placings.map(({ body }) => body));
  if (repeated.landmarks.length === 0) {
    throw new UsageError('no marker of the set can be told on its segment in all of these trials; give others.');
  }
  const { channels, columns, color } = context;
  await channels.report(
    options.format === 'json'
      ? jsonText({ format: 'setsquare-repeat/1', markerSet: set.name, doubts, ...roundRepeat(repeated) })
      : formatRepeat(tellRepeat(repeated, doubts, set), { columns, color: color(undefined) }),
  );
  if (trainee === null) return 0;
  if (doubts.length > 0) {
    channels.say('not kept in the history, for it is doubtful that one subject was marked anew; see above.');
    return 0;
  }
  const at = localTime(new Date());
  appendHistory(options.history, repeatLine(repeated, { trainee, at, markerSet: set.name }));
  channels.say(`kept for ${trainee} in ${options.history}.`);
  return 0;
}
