import type { MarkerSet } from '../marker-set/marker-set.ts';
import type { History, SignOff } from './history.ts';
import { answersOf, firstAnswers, landmarkRecords } from './landmark-record.ts';
import { landmarkWords } from './session-summary.ts';
import { againstSigning } from './sign-off-state.ts';
import { dayOf, traineeRecord } from './trainee-record.ts';

/** What somebody wants to sign. */
export interface WantedSignOff {
  readonly trainee: string;
  readonly signer: string;
  /** Landmarks by their stems. */
  readonly landmarks: readonly string[];
  /** YYYY-MM-DD */
  readonly on: string;
  readonly due: string;
  readonly reason: string;
}

/** The longest reason: a sentence. */
export const longestReason = 200;

/**
 * The lines of a sign-off, one for each landmark, with what it rests on.
 * @returns a sentence where it cannot be signed so
 */
export function signOffLines(wanted: WantedSignOff, history: History, set: MarkerSet): SignOff[] | string {
  const { trainee, signer, landmarks, on, due, reason } = wanted;
  const fault = againstWriting(wanted) || (due <= on ? `Due ${due} is not after ${on}; give a later day.` : '');
  if (fault !== '') return fault;
  const answers = firstAnswers(answersOf(history, trainee).filter(({ at }) => dayOf(at) <= on));
  const lines: SignOff[] = [];
  for (const landmark of landmarks) {
    const record = landmarkRecords(answers).find((one) => one.landmark === landmark);
    const { asked = 0, right = 0, invented = 0, made = 0, lastAt = null } = record ?? {};
    const against = againstSigning({ asked, right, invented });
    if (against !== '' && reason === '') {
      return `The ${landmarkWords(set, landmark)} is not signed off: ${against}. Practise on, or give a reason to sign all the same.`;
    }
    const line = traineeRecord(history, trainee, set, on).landmarks.find((one) => one.landmark === landmark);
    lines.push({
      kind: 'sign-off',
      trainee,
      signer,
      landmark,
      markerSet: set.name,
      on,
      due,
      evidence: {
        asked,
        right,
        invented,
        made,
        lastOn: lastAt === null ? null : dayOf(lastAt),
        placings: line?.repeat?.placings ?? 0,
      },
      reason: against === '' ? '' : reason,
    });
  }
  return lines;
}

/** Nobody signs for themselves. */
export function againstWriting({
  trainee,
  signer,
  reason,
}: Pick<WantedSignOff, 'trainee' | 'signer' | 'reason'>): string {
  if (trainee === signer) return `${signer} cannot sign for ${trainee}: somebody else signs.`;
  if (reason.length > longestReason)
    return `The reason has ${reason.length} characters, expected up to ${longestReason}.`;
  return '';
}
