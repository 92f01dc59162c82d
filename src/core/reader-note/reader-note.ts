import type { Move, MoveProposal } from '../moves/move.ts';
import { notProof } from '../report/advice.ts';
import { counted } from '../report/counted.ts';
import { escapeControls } from '../report/escape-controls.ts';
import type { Report } from '../report/report.ts';
import { sentence } from '../report/sentence.ts';
import { headlineParts } from '../report/text-headline.ts';
import { anglesWithCaution, leastToldDeg } from './angles-with-caution.ts';

/**
 * A paragraph for whoever reads the walking trials later: which angles to read with caution because of where a marker
 * was, who accepted that and why, and what could not be checked. One line, to paste; no file name, no person's name.
 */
export function readerNote(report: Report): string {
  const { code } = report.subject;
  const head = `Marker placement in the static trial${code === null ? '' : ` of ${code}`}:`;
  const said = report.verdict === 'not-assessable' ? notJudged(report) : judged(report);
  return `${[head, ...said].map((part) => escapeControls(part.trim())).join(' ')}\n`;
}

function notJudged(report: Report): string[] {
  return [
    headlineParts(report).found,
    ...report.problems.map(({ message }) => sentence(message)),
    'No joint angle that rests on it has been confirmed.',
  ];
}

function judged(report: Report): string[] {
  const cautions = [
    ...report.kept
      .filter(({ step }) => step !== null)
      .toSorted((a, b) => stake(b.step) - stake(a.step))
      .map(({ finding, reason, step }) => caution(finding, reason, step!.changes)),
    ...report.moves
      .filter(isAboutMarker)
      .toSorted((a, b) => stake(b) - stake(a))
      .map((move) => caution(openFinding(move, report), 'not put right before this capture', move.changes)),
  ];
  const others = [
    ...report.kept.filter(({ step }) => step === null).map(({ finding, reason }) => sentence(`${finding}; ${reason}`)),
    ...exchanged(report),
    ...borderline(report),
    ...unmended(report),
    ...posture(report),
    ...readings(report),
    ...report.problems.map(({ message }) => sentence(message)),
    ...report.notes.filter(({ code }) => code !== 'stance').map(({ message }) => sentence(message)),
    ...estimated(report),
  ];
  const found = [...cautions, ...others];
  const none = found.length === 0 ? ['nothing was found that asks for caution.'] : found;
  return [...none, made(report), notProof];
}

/** "Read right hip rotation (about 6 degrees) with caution: the wand stands 16 mm in front; accepted by AR on ...: why." */
function caution(finding: string, reason: string, changes: MoveProposal['changes']): string {
  const angles = changes === undefined ? '' : anglesWithCaution(changes);
  if (angles !== '') return sentence(`Read ${angles} with caution: ${finding}; ${reason}`);
  const small =
    changes === undefined ? '' : ` It shifts no joint angle of this model by ${leastToldDeg} degrees or more.`;
  return `${sentence(`${finding}; ${reason}`)}${small}`;
}

function isAboutMarker({ action }: Move): boolean {
  return action === 'move' || action === 'palpate-again';
}

/** Labels that the weighing finds exchanged; those that are plain stand among the problems. */
function exchanged({ moves, problems }: Report): string[] {
  if (problems.some(({ code }) => code === 'labels-swapped')) return [];
  return moves
    .filter(({ action }) => action === 'relabel')
    .map(({ instruction }) => `Labels in doubt. ${sentence(instruction)}`);
}

function stake(step: MoveProposal | null): number {
  return step?.changes?.largestDeg ?? 0;
}

/** What was measured that asks for the step; its order stays with the assessor. */
function openFinding(move: Move, report: Report): string {
  const rule = report.rules.find(({ id, says }) => move.resolves.includes(id) && says !== '');
  return rule?.says ?? move.finding ?? `the ${move.called} does not fit the rest of the body`;
}

function borderline({ rules }: Report): string[] {
  const says = rules.filter(({ status }) => status === 'borderline').map((rule) => rule.says);
  return says.length === 0 ? [] : [sentence(`Borderline: ${says.join('; ')}`)];
}

function unmended({ stillFailing, rules }: Report): string[] {
  const says = rules.filter(({ id }) => stillFailing.includes(id)).map((rule) => rule.says);
  return says.length === 0 ? [] : [sentence(`No step would put right: ${says.join('; ')}`)];
}

function posture({ stance, moves, rules }: Report): string[] {
  const out = stance?.measures.filter(({ status }) => status === 'fail' || status === 'expected') ?? [];
  if (out.length === 0) return [];
  const told = out.map(({ says, status }) => (status === 'expected' ? `${says} (as recorded)` : says));
  const explained = moves.filter(({ action }) => action === 'stand-again').flatMap(({ resolves }) => resolves);
  const findings = rules.filter(({ id, says }) => explained.includes(id) && says !== '').map(({ says }) => says);
  const may = findings.length === 0 ? [] : [sentence(`That may explain the following: ${findings.join('; ')}`)];
  return [sentence(`Standing: ${told.join('; ')}`), ...may];
}

function readings({ measurements }: Report): string[] {
  const repeat = measurements.filter(({ status }) => status === 'repeat').map(({ says }) => sentence(says));
  const missing = measurements.filter(({ status }) => status === 'missing').map(({ says }) => sentence(says));
  const doubt = repeat.length === 0 ? [] : ['A hand measurement that the joint centres may rest on was doubted.'];
  return [...doubt, ...repeat, ...missing];
}

function estimated({ angles }: Report): string[] {
  if (angles === null) return [];
  const none = angles.notComputed.map(({ side, reason }) => sentence(`No angles of the ${side} leg: ${reason}`));
  return angles.says === '' ? none : [...none, sentence(angles.says)];
}

/** How much could be checked, and for which reasons the rest could not. */
function made(report: Report): string {
  const { rules, assessed } = report.coverage;
  if (assessed === rules) return `All ${counted(rules, 'check')} could be made.`;
  const byReason = new Map<string, number>();
  for (const { status, reason } of report.rules) {
    if (status === 'not-assessed') byReason.set(reason, (byReason.get(reason) ?? 0) + 1);
  }
  const not = [...byReason].map(([reason, count]) => `${count} not (${reason})`);
  return sentence(`${assessed} of ${counted(rules, 'check')} could be made; ${not.join('; ')}`);
}
