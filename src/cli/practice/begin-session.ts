import { randomInt, randomUUID } from 'node:crypto';
import { stat } from 'node:fs/promises';
import { landmarkOfMarker } from '../../core/practice/answer-trial.ts';
import { drawStored, makeSession } from '../../core/practice/draw-session.ts';
import { answersOf, landmarkRecords, practiceWeights } from '../../core/practice/landmark-record.ts';
import { canMake } from '../../core/practice/make-trial.ts';
import { PracticeRun } from '../../core/practice/practice-run.ts';
import type { LeftOut, PracticeTrial } from '../../core/practice/practice-trial.ts';
import { seeds } from '../../core/practice/seeded-draw.ts';
import { counted } from '../../core/report/counted.ts';
import { ownName } from '../../core/report/own-name.ts';
import { readReferenceAdult } from '../../node/read-reference-adult.ts';
import { appendHistory, checkHistoryWritable, readHistory } from '../../practice/history-file.ts';
import { findStoredTrials } from '../../practice/stored-trials.ts';
import type { CommandContext } from '../command-context.ts';
import { readMarkerSet, readNorms } from '../read-inputs.ts';
import { UsageError } from '../usage-error.ts';
import { personCode } from './person-code.ts';

export interface SessionOptions {
  readonly made?: boolean;
  readonly trainee?: string;
  readonly history: string;
  readonly trials: number;
  readonly seed?: number;
  readonly markerSet: string;
  readonly norms?: string;
}

/** Without a code nothing is kept. */
const nobody = 'nobody';

/**
 * Draws a session and tells, in a sentence each, what it is drawn from and what is kept.
 * @throws {UsageError | InputError} where there is nothing to practise on
 */
export async function beginSession(
  folder: string | undefined,
  options: SessionOptions,
  now: () => string,
  context: CommandContext,
): Promise<PracticeRun> {
  const { channels, signal } = context;
  if ((folder === undefined) === (options.made !== true)) {
    throw new UsageError('practice needs a folder with standing trials, or --made for made ones; give one of the two.');
  }
  const trainee = options.trainee === undefined ? nobody : personCode('--trainee', options.trainee);
  const engine = await context.engine.check();
  const set = await readMarkerSet(engine, options.markerSet);
  const norms = await readNorms(engine, set, options.norms);
  if (options.trainee !== undefined) checkHistoryWritable(options.history);
  const history = await readHistory(options.history);
  if (history.unread > 0) {
    channels.say(
      `${counted(history.unread, 'line')} of ${ownName(options.history)} cannot be read and count for nothing.`,
    );
  }
  const before = answersOf(history, trainee);
  // A class that is given a seed practises on the same trials, whatever each of them answered before.
  const weight = options.seed === undefined ? practiceWeights(landmarkRecords(before)) : () => 1;
  const seed = options.seed ?? randomInt(seeds - 1);
  let trials: readonly PracticeTrial[];
  if (folder === undefined) {
    const adult = await readReferenceAdult();
    if (!canMake({ set, adult })) {
      throw new UsageError(
        `${set.name} has markers that the reference adult has no place for, so that no trial can be made; give a folder with standing trials.`,
      );
    }
    trials = makeSession({ set, norms, adult }, seed, options.trials, weight);
  } else {
    if ((await stat(folder).catch(() => null))?.isFile()) {
      throw new UsageError(`${ownName(folder)} is a file, expected a folder with standing trials; name that.`);
    }
    const stored = await findStoredTrials(folder, { set, norms }, seed, options.trials, signal);
    const out = leftOutWords(stored.leftOut);
    channels.say(
      `${counted(stored.found, 'trial')} found, ${stored.checked} checked${out === '' ? '' : `; left out: ${out}`}${unreadWords(stored.unreadFolders)}.`,
    );
    trials = drawStored(stored.trials, seed, options.trials, weight, (label) => landmarkOfMarker(set, label));
    if (trials.length === 0) {
      throw new UsageError(
        `no trial below ${ownName(folder)} can be practised on; name another folder, or practise with --made.`,
      );
    }
  }
  channels.say(
    options.trainee === undefined
      ? 'nothing is kept: --trainee CODE keeps a history and brings weak landmarks back more often.'
      : `answers of ${trainee} are kept in ${options.history}.`,
  );
  const begun = {
    kind: 'session',
    session: randomUUID().slice(0, 8),
    trainee,
    at: now(),
    seed,
    source: folder === undefined ? 'made' : 'stored',
    markerSet: set.name,
    trials: trials.length,
  } as const;
  return new PracticeRun({ set, trials, begun, before }, (line) => {
    if (options.trainee !== undefined) appendHistory(options.history, line);
  });
}

function unreadWords(folders: number): string {
  return folders === 0 ? '' : `; ${counted(folders, 'folder')} could not be opened`;
}

const whyLeftOut: Readonly<Record<LeftOut, string>> = {
  'not-assessable': 'not assessable',
  labels: 'with labels exchanged or missing',
  stance: 'to be captured again for the stance',
  unclear: 'with something to adjust that is no marker',
  session: 'with a session file that is refused',
};

function leftOutWords(leftOut: Readonly<Partial<Record<LeftOut, number>>>): string {
  return (Object.keys(whyLeftOut) as LeftOut[])
    .flatMap((why) => (leftOut[why] === undefined ? [] : [`${leftOut[why]} ${whyLeftOut[why]}`]))
    .join(', ');
}
