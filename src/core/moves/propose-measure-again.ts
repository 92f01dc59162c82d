import { confirmReading, howTaken, nameReading } from '../measurements/measure-words.ts';
import type { SheetFinding } from '../measurements/sheet-finding.ts';
import type { MoveProposal } from './move.ts';

/** A step for each hand measurement that has to be taken again: joint centres are computed from it. */
export function proposeMeasureAgain(findings: readonly SheetFinding[]): MoveProposal[] {
  return findings
    .filter(({ status }) => status === 'repeat')
    .map(({ readings, says }): MoveProposal => {
      const first = readings[0]!;
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
    });
}
