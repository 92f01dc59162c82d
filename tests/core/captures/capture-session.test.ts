import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace, swapLabels } from '../../../sample-trials/plant-fault.ts';
import { addCapture, type Captures, hasStoodLongEnough } from '../../../src/core/captures/capture-session.ts';
import type { Report } from '../../../src/core/report/report.ts';
import { placedByHand } from '../../support/ordinary-people.ts';
import { standsAgain } from '../../support/stand-again.ts';
import { checkBytes, checkPositions } from '../../support/still-trial.ts';

let hashes = 0;
function reportOn(positions: MarkerPositions): Report {
  return withNewHash(checkPositions(positions));
}

function withNewHash(report: Report): Report {
  hashes += 1;
  return { ...report, trial: { ...report.trial, sha256: hashes.toString(16).padStart(64, '0') } };
}

function sessionOf(...trials: readonly [path: string, report: Report][]): Captures {
  return trials.reduce<Captures>((captures, [path, report]) => addCapture(captures, path, report).captures, []);
}

const low = (time: number, up: number) => reportOn(displace(standsAgain(3, time), 'L_HEEL', { up }));

describe('the captures of a session', () => {
  it('are numbered, compared with the one before and counted as corrections', () => {
    const captures = sessionOf(['1.c3d', low(0, -20)], ['2.c3d', low(1, -14)], ['3.c3d', low(2, 0)]);
    expect(captures.map(({ number, against, corrections }) => [number, against?.number, corrections])).toEqual([
      [1, undefined, 0],
      [2, 1, 1],
      [3, 2, 2],
    ]);
    expect(captures.map(hasStoodLongEnough)).toEqual([false, false, true]);
    expect(captures[1]!.against!.comparison.steps.find(({ marker }) => marker === 'L_HEEL')!.movedMm).toBeCloseTo(6, 0);
  });

  it('count no correction where none was asked', () => {
    const captures = sessionOf(['1.c3d', low(0, 0)], ['2.c3d', low(1, 0)]);
    expect(captures[0]!.report.moves).toEqual([]);
    expect(captures[1]!.corrections).toBe(0);
  });

  it('begin anew with another person', () => {
    const captures = sessionOf(['1.c3d', low(0, -20)], ['2.c3d', low(1, 0)], ['3.c3d', reportOn(placedByHand(11))]);
    expect(captures[2]).toMatchObject({ number: 3, person: 2, against: null, corrections: 0 });
  });

  it('hold the same bytes once, wherever they lie', () => {
    const report = low(0, -20);
    const captures = sessionOf(['1.c3d', report]);
    expect(addCapture(captures, 'copy of 1.c3d', report)).toEqual({ captures, what: 'copy', capture: captures[0] });
  });

  it('let a finished file take the place of the unfinished one, and compare again what came after', () => {
    const unfinished = withNewHash(checkBytes(new Uint8Array(0)));
    const captures = sessionOf(['1.c3d', unfinished], ['2.c3d', low(1, 0)]);
    expect(captures[1]!.against).toBeNull();
    const added = addCapture(captures, '1.c3d', low(0, -20));
    expect(added.what).toBe('replaced');
    expect(added.captures.map(({ number, written, corrections }) => [number, written, corrections])).toEqual([
      [1, 2, 0],
      [2, 1, 1],
    ]);
    expect(added.captures[1]!.against!.number).toBe(1);
  });

  it('take a file that was written over with another capture as another capture', () => {
    const captures = sessionOf(['standing.c3d', low(0, -20)], ['standing.c3d', low(1, 0)]);
    expect(captures.map(({ number, written }) => [number, written])).toEqual([
      [1, 1],
      [2, 1],
    ]);
  });

  it('take corrected labels as the same capture, processed again, and no correction of the patient', () => {
    const body = standsAgain(3, 0);
    const swapped = reportOn(swapLabels(body, 'R_LE', 'L_LE'));
    const added = addCapture(sessionOf(['1.c3d', swapped]), '1-corrected.c3d', reportOn(body));
    expect(added).toMatchObject({ what: 'replaced', capture: { number: 1, written: 2, corrections: 0 } });
    expect(added.capture.against!.comparison.steps[0]!.says).toBe('Labels: corrected.');
  });

  it('are compared past one in which nobody could be judged', () => {
    const nobody = withNewHash(checkBytes(new Uint8Array(0)));
    const captures = sessionOf(['1.c3d', low(0, -20)], ['2.c3d', nobody], ['3.c3d', low(1, 0)]);
    expect(captures[1]).toMatchObject({ against: null, corrections: 0 });
    expect(captures[2]).toMatchObject({ number: 3, against: { number: 1 }, corrections: 1 });
  });

  it('keep the last 500 and go on counting', () => {
    const nobody = checkBytes(new Uint8Array(0));
    let captures: Captures = [];
    for (let i = 0; i < 503; i++) captures = addCapture(captures, `${i}.c3d`, withNewHash(nobody)).captures;
    expect([captures.length, captures[0]!.number, captures.at(-1)!.number]).toEqual([500, 4, 503]);
  });
});
