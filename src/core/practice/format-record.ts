import { counted } from '../report/counted.ts';
import { fixed } from '../report/rounding.ts';
import { type TextOptions, TextPage } from '../report/text-page.ts';
import type { BasisScore } from './basis-score.ts';
import {
  chanceWords,
  dueWords,
  evidenceWords,
  hasSpread,
  historyWords,
  landmarkCells,
  madeTitle,
  recordLimits,
  scoreRows,
  spanWords,
  storedTitle,
  wasAnswered,
} from './record-words.ts';
import type { SignOffState } from './sign-off-state.ts';
import type { TraineeRecord } from './trainee-record.ts';

export function formatRecord(record: TraineeRecord, options: TextOptions): string {
  const { trainee, asOf, markerSet, made, stored, landmarks } = record;
  const page = new TextPage(options);
  page.paragraph(`Practice record of ${trainee}, as of ${asOf}`, { ink: 'bold' });
  page.paragraph(`Marker set ${markerSet}; ${spanWords(record)}.`);
  for (const [title, score, of] of [
    [madeTitle, made, 'made'],
    [storedTitle, stored, 'stored'],
  ] as const) {
    if (score.trials === 0) continue;
    page.heading(title);
    writeScore(page, score, record.blindChoices);
    const asked = landmarks.filter((line) => wasAnswered(line[of]));
    if (asked.length === 0) continue;
    page.blank();
    page.table([
      ['', 'found', '95 %', 'wrongly', 'distance, mm:'],
      ['', '', '', 'named', 'bias (size)'],
      ...asked.map((line) => [line.called, ...landmarkCells(line[of])]),
    ]);
  }
  const withHistory = landmarks.filter(({ history }) => history.length > 0);
  if (withHistory.length > 0) {
    page.heading('By day: found of the times it was off');
    for (const { called, history } of withHistory) {
      page.paragraph(historyWords(history), { indent: 2, lead: `${called}: ` });
    }
  }
  const repeated = landmarks.filter(hasSpread);
  if (repeated.length > 0) {
    page.heading('Placed anew, skin marks removed: spread of one placing, 1 SD, mm');
    page.table([
      ['', 'forward', 'up', 'outward', 'placings', 'on'],
      ...repeated.map(({ called, repeat }) => [
        called,
        fixed(1, repeat!.forwardMm),
        fixed(1, repeat!.upMm),
        fixed(1, repeat!.outwardMm),
        String(repeat!.placings),
        repeat!.on,
      ]),
    ]);
  }
  writeSignOffs(page, record);
  page.blank();
  for (const says of recordLimits(record)) page.paragraph(says);
  return page.toString();
}

function writeScore(page: TextPage, score: BasisScore, blindChoices: number): void {
  page.table([['', '', '95 %'], ...scoreRows(score)]);
  page.paragraph(chanceWords(score, blindChoices), { indent: 2 });
}

function writeSignOffs(page: TextPage, { landmarks }: TraineeRecord): void {
  page.heading('Sign-off of each landmark');
  const signed = landmarks.flatMap(({ called, signOff }) => (signOff === null ? [] : [{ called, signOff }]));
  if (signed.length > 0) {
    page.table([
      ['', 'by', 'on', 'due', ''],
      ...signed.map(({ called, signOff }) => [called, signOff.signer, signOff.on, signOff.due, dueWords(signOff)]),
    ]);
    for (const { called, signOff } of signed) {
      page.paragraph(`${evidenceWords(signOff)}.`, { indent: 4, lead: `${called}: ` });
    }
  }
  const open = landmarks.filter(({ signOff }) => signOff === null).map(({ called }) => called);
  if (open.length > 0) page.paragraph(`Not signed off: ${open.join(', ')}.`, { indent: 2 });
}

/** What is due of everybody, the longest overdue first. */
export function formatDues(
  states: readonly (SignOffState & { readonly called: string })[],
  asOf: string,
  options: TextOptions,
): string {
  const page = new TextPage(options);
  const overdue = states.filter(({ state }) => state === 'overdue').length;
  page.paragraph(
    states.length === 0
      ? `No landmark is signed off in this history, as of ${asOf}.`
      : `${counted(states.length, 'landmark')} signed off, ${overdue} overdue, as of ${asOf}`,
    { ink: 'bold' },
  );
  if (states.length > 0) {
    page.blank();
    page.table([
      ['', 'of', 'by', 'due', ''],
      ...[...states]
        .sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : 0))
        .map((one) => [one.called, one.trainee, one.signer, one.due, dueWords(one)]),
    ]);
  }
  return page.toString();
}
