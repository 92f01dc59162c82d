import type { MarkerSet } from '../marker-set/marker-set.ts';
import { whose } from '../moves/move-words.ts';
import { ruleName } from '../report/rule-name.ts';
import { sentence } from '../report/sentence.ts';
import type { AcceptedMarker } from './answer-key.ts';
import type { AnsweredTrial } from './history.ts';
import type { PracticeTrial } from './practice-trial.ts';
import { alongWay, skinWays } from './skin-ways.ts';

/** What is said once a verdict was written down; each text is one or a few sentences. */
export interface Feedback {
  /** What is right, or what the program would do. */
  readonly truth: readonly string[];
  /** What the trainee wrote against that. */
  readonly score: readonly string[];
  /** Where it shows, and what would confirm it on a patient. */
  readonly look: readonly string[];
  /** What nobody can tell from this figure. */
  readonly limits: readonly string[];
}

const bone = 'Nothing found does not show that every marker is on its bone: geometry sees relations, not bones.';

export function feedbackOn({ key, report }: PracticeTrial, answer: AnsweredTrial, set: MarkerSet): Feedback {
  const marker = (label: string) => whose(set.markers.find((one) => one.label === label)!);
  const isMade = key.basis === 'planted';
  const found = key.expected.map(({ accepted: [first] }) => ({
    called: marker(first.marker),
    says: wayBack(first, set),
    byEye: set.markers.find(({ label }) => label === first.marker)?.placedBy === 'eye',
  }));
  const truth = isMade
    ? found.length === 0
      ? ['No marker was moved in this made trial: nothing to move.']
      : found.map(({ called, says }) => `In this made trial ${called} was moved. It goes back ${says}.`)
    : found.length === 0
      ? ['The program would find nothing to move.']
      : found.map(({ called, says, byEye }) =>
          byEye
            ? `The program would move ${called} ${says}.`
            : `The program would have ${called} palpated again: it expects it ${says}. On the bone, it stays.`,
        );
  const program = isMade ? againstProgram(key.expected[0]?.accepted[0] ?? null, report, marker) : [];
  const score = answer.scored.map(({ outcome, marker: label, named, wayRight, errorMm }) => {
    switch (outcome) {
      case 'found':
        return `Found: ${marker(label)}. ${wayWords(wayRight, errorMm)}`;
      case 'tied':
        return `Right as well: ${marker(named!)} cannot be told from ${marker(label)} here. ${wayWords(wayRight, errorMm)}`;
      case 'missed':
        return `Missed: ${marker(label)}.`;
      case 'invented':
        return `Not to be moved${isMade ? '' : ' as the program sees it'}: ${marker(label)}.`;
      default:
        return `Not counted: ${marker(label)}. Geometry sees little there, so that the program cannot say you are wrong.`;
    }
  });
  if (answer.scored.length === 0)
    score.push(answer.written.length === 0 ? 'Right: nothing to move.' : 'Nothing of it was counted.');
  const ties = key.expected.flatMap(({ settledBy }) => (settledBy === '' ? [] : [sentence(settledBy)]));
  const doubt = key.expected.some(({ isOptional }) => isOptional)
    ? ['The program takes the patient to be built so rather than marked so: naming nothing is no fault.']
    : [];
  return {
    truth: [...truth, ...program],
    score,
    look: key.expected.flatMap(({ accepted: [{ marker: off }] }) => whereToLook(off, report)),
    limits: [
      ...ties,
      ...doubt,
      ...(key.expected.length === 0 ? [bone] : []),
      ...(isMade
        ? []
        : ['The program is not the truth: on a patient the assessor decides, with a finger on the bone.']),
    ],
  };
}

function wayWords(wayRight: boolean | null, errorMm: number | null): string {
  if (wayRight === null || errorMm === null) return 'The way is not the one it goes.';
  const off = Math.round(Math.abs(errorMm));
  if (off === 0) return 'The way is right, and the distance to the millimetre.';
  return `The way is right, the distance ${off} mm too ${errorMm > 0 ? 'long' : 'short'}.`;
}

/** "14 mm up, away from the sole" */
function wayBack({ marker: label, side, shift }: AcceptedMarker, set: MarkerSet): string {
  const marker = set.markers.find((one) => one.label === label)!;
  const goes = skinWays(marker)
    .map(({ way, says }) => ({ says, mm: alongWay(way, side, shift) }))
    .sort((a, b) => b.mm - a.mm);
  const largest = goes[0]!.mm;
  return goes
    .filter(({ mm }) => mm > 0 && mm >= largest / 3)
    .map(({ mm, says }) => `${Math.round(mm)} mm ${says}`)
    .join(', and ');
}

/** From the step that asks for the marker, and the first of the rules that it mends. */
function whereToLook(off: string, { moves, rules }: PracticeTrial['report']): string[] {
  const step = moves.find(({ marker }) => marker === off);
  if (step === undefined) return [];
  const rule = rules.find(({ id, seen }) => seen !== '' && step.resolves.includes(id));
  return [
    ...(rule === undefined
      ? []
      : [`${ruleName(rule)}: look ${sentence(rule.seen).replace(/^./, (letter) => letter.toLowerCase())}`]),
    ...(step.confirmBy === '' ? [] : [`On a patient, confirm it: ${sentence(step.confirmBy)}`]),
  ];
}

/** Where the program would have said something else than what was planted, it is told: it errs, too. */
function againstProgram(
  planted: AcceptedMarker | null,
  { moves, verdict }: PracticeTrial['report'],
  marker: (label: string) => string,
): string[] {
  const first = moves[0]?.marker;
  if (planted === null) {
    return first === undefined || verdict === 'ready'
      ? []
      : [`The program alone would doubt ${marker(first)} here: it errs, too.`];
  }
  if (first === planted.marker) return [];
  if (first === undefined) return ['The program alone would find nothing here: no check shows this fault.'];
  return [`The program alone would name ${marker(first)} first: it errs, too.`];
}
