import { counted } from '../report/counted.ts';
import type { MoveProposal, MoveVector, RuleStatus } from '../report/report.ts';
import { roundTo } from '../report/rounding.ts';
import type { StepOutcome, ToldStep } from './step-result.ts';

/**
 * Puts an outcome into words for the bedside: which marker, how far of what was asked, what remains, what the check says.
 * @param outside how many measures of the stance are outside the usual now
 */
export function sayStep(proposal: MoveProposal, outcome: ToldStep, outside: number): StepOutcome {
  const subject = subjectOf(proposal, outcome.instead);
  const happened = whatHappened(proposal, outcome, outside);
  const check = outcome.checkNow === null ? '' : checkSays[outcome.checkNow];
  return { ...outcome, subject, happened, check, says: `${subject}: ${happened}. ${check}`.trim() };
}

const checkSays: Readonly<Record<RuleStatus, string>> = {
  pass: 'The check passes now.',
  borderline: 'The check is borderline now.',
  fail: 'The check still fails.',
  accepted: 'The finding is accepted in the session.',
  'not-assessed': 'The check could not be made this time.',
};

/** "R_TW, right thigh wand" */
function subjectOf({ action, marker, called, landmark, side }: MoveProposal, instead: boolean): string {
  if (action === 'stand-again') return 'Standing again';
  if (action === 'relabel') return 'Labels';
  if (action === 'measure-again') return 'Measuring again';
  const sided = side === 'right' || side === 'left' ? `${side} ` : '';
  const name = called ?? landmark;
  return `${instead ? 'Instead, ' : ''}${marker ?? 'the marker'}${name === undefined ? '' : `, ${sided}${name}`}`;
}

function whatHappened(proposal: MoveProposal, outcome: ToldStep, outside: number): string {
  const { askedMm, movedMm, result } = outcome;
  if (proposal.mm === undefined) return toldByChecks(proposal, outcome, outside);
  if (askedMm === null || movedMm === null) return 'not seen in both captures, so how far it moved cannot be told';
  // Rounded first and subtracted then, so that the figures add up for the reader.
  const palpated = proposal.action === 'palpate-again';
  const asked = roundMm(askedMm, palpated);
  const moved = roundMm(movedMm, palpated);
  const about = palpated ? 'about ' : '';
  const way = wayOf(proposal.mm);
  switch (result) {
    case 'not-moved':
      return palpated
        ? `left where it was; about ${asked} mm ${way} was expected. If it is on the bone, record that in the session`
        : `not moved; ${asked} mm ${way} was asked`;
    case 'other-way':
      return `moved ${about}${-moved} mm the other way; ${asked} mm ${way} was asked, so ${asked - moved} mm remain`;
    case 'too-far':
      return `moved ${about}${moved} mm ${way}, ${moved - asked} mm more than the ${asked} mm asked`;
    default:
      return `moved ${about}${moved} mm ${way} of the ${asked} mm asked; ${remains(asked - moved)}`;
  }
}

function remains(mm: number): string {
  if (mm === 0) return 'nothing remains';
  return mm > 0 ? `${mm} mm ${mm === 1 ? 'remains' : 'remain'}` : `${-mm} mm too far`;
}

function toldByChecks({ action }: MoveProposal, { result }: ToldStep, outside: number): string {
  if (action === 'relabel') {
    return (
      { settled: 'corrected', open: 'still exchanged' }[result as string] ??
      'whether they were corrected cannot be told'
    );
  }
  if (action === 'measure-again') return 'a trial does not show it';
  const still = `${counted(outside, 'measure')} of the stance still outside the usual`;
  return (
    {
      settled: 'nothing outside the usual any more',
      part: `nearer to the usual, ${still}`,
      open: `as before, ${still}`,
    }[result as string] ?? 'the stance could not be judged this time'
  );
}

/** "backward"; two ways where the second is at least a third of the first: "up and inward". */
function wayOf(mm: MoveVector): string {
  const ways: [number, string, string][] = [
    [mm.forward, 'forward', 'backward'],
    [mm.up, 'up', 'down'],
    'left' in mm ? [mm.left, 'left', 'right'] : [mm.outward, 'outward', 'inward'],
  ];
  const sorted = ways.sort(([a], [b]) => Math.abs(b) - Math.abs(a));
  return sorted
    .filter(([size]) => Math.abs(size) >= Math.abs(sorted[0]![0]) / 3)
    .map(([size, plus, minus]) => (size < 0 ? minus : plus))
    .join(' and ');
}

/** Whole mm, and the nearest 5 where a bone was to be felt, as in the instructions. */
function roundMm(mm: number, palpated: boolean): number {
  return (palpated ? 5 : 1) * (roundTo(0, palpated ? mm / 5 : mm) ?? 0);
}
