import { nameReading, sayValue } from '../measurements/measure-words.ts';
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
    ...report.problems.map(problem),
    'No joint angle that rests on it has been confirmed.',
  ];
}

function judged(report: Report): string[] {
  const cautions = [
    ...report.kept
      .filter(({ step }) => step !== null)
      .toSorted((a, b) => stake(b.step) - stake(a.step))
      .map(({ finding, reason, step }) => caution(finding, reason, step!)),
    ...report.moves
      .filter(isAboutMarker)
      .toSorted((a, b) => stake(b) - stake(a))
      .map((move) => caution(openFinding(move, report), openReason(move), move)),
  ];
  const others = [
    ...report.kept.filter(({ step }) => step === null).map(({ finding, reason }) => sentence(`${finding}; ${reason}`)),
    ...exchanged(report),
    ...borderline(report),
    ...unmended(report, cautions),
    ...posture(report, cautions.length > 0),
    ...readings(report),
    ...report.problems.map(problem),
    ...report.notes.filter((note) => !isSaidOtherwise(note, report)).map(({ message }) => sentence(message)),
    ...estimated(report),
  ];
  const found = [...cautions, ...others];
  const none = found.length === 0 ? ['nothing was found that asks for caution.'] : found;
  return [...none, made(report), notProof];
}

/** "Read right hip rotation (about 6 degrees) with caution: the wand stands 16 mm in front; accepted by AR on ...: why." */
function caution(finding: string, reason: string, { changes, distanceMm, uncertaintyMm }: MoveProposal): string {
  const loose = distanceMm === undefined || uncertaintyMm === undefined ? 0 : uncertaintyMm / distanceMm;
  const angles = changes === undefined ? '' : anglesWithCaution(changes, loose);
  if (angles !== '') return sentence(`Read ${angles} with caution: ${finding}; ${reason}`);
  const small =
    changes === undefined ? '' : ` It shifts no joint angle of this model by ${leastToldDeg} degrees or more.`;
  return `${sentence(`${finding}; ${reason}`)}${small}`;
}

/** What became of an open step, and how sure it was that the marker is off at all. */
function openReason({ action, probability }: Move): string {
  const open = action === 'move' ? 'not put right before this capture' : 'not settled before this capture';
  if (action === 'move' || probability === null) return open;
  if (probability >= likely) return `${open} (the marker is likely off)`;
  return `${open} (the marker may be off, or the patient built so)`;
}

/** Exchanged labels spoil every angle; the paragraph says so instead of an order to relabel. */
function problem({ code, message }: Report['problems'][number]): string {
  const spoilt = code === 'labels-swapped' ? ' Read no angle of either leg until the labels have been put right.' : '';
  return `${sentence(message)}${spoilt}`;
}

/** The stance has its own sentence; a habit is not what a dressing or a bone asks for. */
function isSaidOtherwise({ code, rules }: Report['notes'][number], { kept }: Report): boolean {
  return (
    code === 'stance' || (code === 'both-sides-alike' && kept.some((one) => one.rules.some((id) => rules.includes(id))))
  );
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

/** As the steps have it: from here on a marker is called likely off. */
const likely = 0.4;

/** What was measured that asks for the step; its order stays with the assessor. */
function openFinding(move: Move, report: Report): string {
  const rule = report.rules.find(({ id, says }) => move.resolves.includes(id) && says !== '');
  return rule?.says ?? move.finding ?? `the ${move.called} does not fit the rest of the body`;
}

function borderline({ rules }: Report): string[] {
  const says = rules.filter(({ status }) => status === 'borderline').map((rule) => rule.says);
  return says.length === 0 ? [] : [sentence(`Borderline: ${says.join('; ')}`)];
}

function unmended({ stillFailing, rules }: Report, told: readonly string[]): string[] {
  const says = rules
    .filter(({ id, says }) => stillFailing.includes(id) && !told.some((text) => text.includes(says)))
    .map((rule) => rule.says);
  return says.length === 0 ? [] : [sentence(`No step would put right: ${says.join('; ')}`)];
}

function posture({ stance, moves, rules }: Report, isDoubted: boolean): string[] {
  const out = stance?.measures.filter(({ status }) => status === 'fail' || status === 'expected') ?? [];
  if (out.length === 0) return [];
  const told = out.map(({ says, status }) => (status === 'expected' ? `${says} (as recorded)` : says));
  const explained = moves.filter(({ action }) => action === 'stand-again').flatMap(({ resolves }) => resolves);
  const findings = rules.filter(({ id, says }) => explained.includes(id) && says !== '').map(({ says }) => says);
  const may = findings.length === 0 ? [] : [sentence(`That may explain the following: ${findings.join('; ')}`)];
  const as = isDoubted ? 'Standing, as these markers show it' : 'Standing';
  return [sentence(`${as}: ${told.join('; ')}`), ...may];
}

/** What disagrees, without the order to take it again: the patient is gone. */
function readings({ measurements, sheetAgainstTrial }: Report): string[] {
  const departing = (sheetAgainstTrial?.compared ?? []).filter(({ agrees }) => !agrees).map(sayDeparting);
  const told = measurements.flatMap(({ status, check, says }) =>
    (status === 'repeat' || status === 'missing') && !isAgainstTrial(check) ? [sentence(says)] : [],
  );
  const doubted = departing.length > 0 || measurements.some(({ status }) => status === 'repeat');
  const doubt = doubted ? ['A hand measurement is in doubt, and joint centres may rest on it:'] : [];
  return [...doubt, ...departing, ...told];
}

type Compared = NonNullable<Report['sheetAgainstTrial']>['compared'][number];

function sayDeparting({ measure, side, readMm, foretoldMm, markers }: Compared): string {
  return sentence(
    `the ${nameReading({ measure, side })} was read as ${sayValue(measure, readMm)}, and by the markers (${markers.join(', ')}) it would be ${sayValue(measure, foretoldMm)}: one of the two is off`,
  );
}

function isAgainstTrial(check: Report['measurements'][number]['check']): boolean {
  return check === 'trial-against-sheet' || check === 'another-sheet';
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
