import { confirmReading, howTaken, nameReading } from '../measurements/measure-words.ts';
import type { SheetFinding } from '../measurements/sheet-finding.ts';
import type { MoveProposal } from './move.ts';

/** A step for each hand measurement that has to be taken again: joint centres are computed from it. */
export function proposeMeasureAgain(findings: readonly SheetFinding[]): MoveProposal[] {
  return (
    findings
      .filter(({ status }) => status === 'repeat')
      // Whose sheet it is comes before any of its readings.
      .toSorted((a, b) => Number(b.check === 'another-sheet') - Number(a.check === 'another-sheet'))
      .map(({ check, readings, says }): MoveProposal => {
        const first = readings[0]!;
        if (check === 'another-sheet') return askWhoseSheet(says);
        return {
          action: 'measure-again',
          ...(first.side === null ? {} : { side: first.side }),
          probability: null,
          resolves: [],
          instruction: `Take the ${nameReading(first)} again: ${howTaken(first.measure)}.`,
          finding: says,
          confirmBy: confirmReading(first.measure),
          why: 'Joint centres are computed from the hand measurements: a wrong reading spoils them as surely as a wrong marker.',
        };
      })
  );
}

function askWhoseSheet(says: string): MoveProposal {
  return {
    action: 'measure-again',
    probability: null,
    resolves: [],
    instruction: 'Look first whether this is the sheet of this patient: compare the codes of sheet and trial.',
    finding: says,
    confirmBy:
      'With the right sheet the trial is checked again. Where it is the right one already, every reading is taken again.',
    why: 'With the measurements of another person every joint centre is that of another person.',
  };
}
