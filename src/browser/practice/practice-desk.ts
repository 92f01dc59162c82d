import { checkTrial } from '../../core/check-trial.ts';
import { landmarkOfMarker } from '../../core/practice/answer-trial.ts';
import { drawStored, makeSession } from '../../core/practice/draw-session.ts';
import { historyLine, parseHistory } from '../../core/practice/history.ts';
import { answersOf, landmarkRecords, practiceWeights } from '../../core/practice/landmark-record.ts';
import { canMake, type Workshop } from '../../core/practice/make-trial.ts';
import { PracticeRun } from '../../core/practice/practice-run.ts';
import { type PracticeTrial, storedTrial } from '../../core/practice/practice-trial.ts';
import { showTrial, tellTrial } from '../../core/practice/shown-trial.ts';
import { emptySession } from '../../core/session/session.ts';
import type { BeginOrder, PracticeAnswer, VerdictOrder } from '../messages.ts';

type Begin = BeginOrder['begin'];

/** The session under way, inside the worker: what is right stays there until a verdict comes in. */
export class PracticeDesk {
  #run: PracticeRun | null = null;
  #lines: string[] = [];

  /** @throws {Error} with a sentence where there is nothing to practise on */
  async begin(order: Begin, shop: Workshop, hashOf: (bytes: Uint8Array) => Promise<string>): Promise<PracticeAnswer> {
    const { set } = shop;
    const before = answersOf(parseHistory(order.history), order.trainee);
    const weight = practiceWeights(landmarkRecords(before));
    let trials: readonly PracticeTrial[];
    let leftOut = 0;
    if (order.files === null) {
      if (!canMake(shop)) {
        throw new Error(
          `No trial can be made for ${set.name}: the reference adult has no place for some of its markers.`,
        );
      }
      trials = makeSession(shop, order.seed, order.trials, weight);
    } else {
      const stored = await checkAll(order.files, shop, hashOf);
      leftOut = order.files.length - stored.length;
      trials = drawStored(stored, order.seed, order.trials, weight, (label) => landmarkOfMarker(set, label));
    }
    const begun = {
      kind: 'session',
      session: `${order.seed.toString(16)}-${order.at.replaceAll(/[^0-9]/g, '').slice(0, 14)}`,
      trainee: order.trainee,
      at: order.at,
      seed: order.seed,
      source: order.files === null ? 'made' : 'stored',
      markerSet: set.name,
      trials: trials.length,
    } as const;
    this.#run = new PracticeRun({ set, trials, begun, before }, (line) => this.#lines.push(historyLine(line)));
    const shown = showTrial(this.#run);
    if (shown === null)
      throw new Error('None of these trials can be practised on: no standing person, or labels to put right.');
    return { shown, leftOut };
  }

  answer({ written, at }: VerdictOrder['verdict']): PracticeAnswer {
    if (this.#run === null) return { failed: 'No session is under way.' };
    const told = tellTrial(this.#run, written, at);
    const lines = this.#lines;
    this.#lines = [];
    return { told, lines };
  }
}

async function checkAll(
  files: NonNullable<Begin['files']>,
  { set, norms }: Workshop,
  hashOf: (bytes: Uint8Array) => Promise<string>,
): Promise<PracticeTrial[]> {
  const trials = new Map<string, PracticeTrial>();
  for (const { bytes, session } of files) {
    const recorded =
      session === null ? emptySession : (await import('../../core/session/parse-session.ts')).parseSession(session);
    const trial = storedTrial(checkTrial(bytes, set, recorded, { path: '', sha256: await hashOf(bytes) }, norms));
    if (typeof trial !== 'string') trials.set(trial.id, trial);
  }
  return [...trials.values()];
}
