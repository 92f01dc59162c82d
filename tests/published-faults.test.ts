import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../sample-trials/landmarks.ts';
import { displace } from '../sample-trials/plant-fault.ts';
import { writeC3d } from '../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../src/core/check-trial.ts';
import { formatText } from '../src/core/report/format-text.ts';
import type { Report } from '../src/core/report/report.ts';
import { emptySession } from '../src/core/session/session.ts';
import { placedByHand, symmetricAdult } from './support/ordinary-people.ts';
import { normsOf, wands22 } from './support/shipped-marker-sets.ts';
import { stillContents } from './support/still-trial.ts';

/**
 * Three faults that others chose, long before this code: those that published studies blame for wrong angles. What is
 * expected is what an experienced colleague would say of each.
 */
function check(positions: MarkerPositions): Report {
  const bytes = writeC3d(stillContents(positions, { frames: 200 }));
  const source = { path: 'standing.c3d', sha256: '0'.repeat(64) };
  return checkTrial(bytes, wands22, emptySession, source, normsOf('lower-limb-wands-22'));
}

const people: [string, MarkerPositions][] = [
  ['an average adult', symmetricAdult()],
  ['somebody else', placedByHand(7)],
];

describe.each(people)('on %s', (_, person) => {
  it('a thigh wand turned about the bone (Baker, Finney and Orr 1999, Hum Mov Sci 18:655) is turned back', () => {
    const report = check(displace(person, 'R_TW', { forward: 26 }));
    const [step, ...more] = report.moves;
    expect(more).toEqual([]);
    expect([step!.action, step!.marker]).toEqual(['move', 'R_TW']);
    expect(step!.along).toMatch(/^backward/);
    expect(step!.tipMm).toBeGreaterThan(20);
    expect(step!.tipMm).toBeLessThan(32);
    expect(step!.probability).toBeGreaterThan(0.75);
    expect(step!.tie).toBeNull();
  });

  it('an epicondyle marker 20 mm too far forward (Fonseca 2020, PLOS ONE 15:e0232064) is palpated again, the wand is not moved', () => {
    const report = check(displace(person, 'R_LE', { forward: 20 }));
    const [step, ...more] = report.moves;
    expect(more).toEqual([]);
    expect([step!.action, step!.marker]).toEqual(['palpate-again', 'R_LE']);
    expect(step!.along).toMatch(/^backward/);
    expect(step!.distanceMm).toBeGreaterThan(13);
    expect(step!.distanceMm).toBeLessThan(27);
  });
});

it('an epicondyle marker 20 mm too far forward on an average adult ties with the wand, and the bone settles it', () => {
  const [step] = check(displace(symmetricAdult(), 'R_LE', { forward: 20 })).moves;
  expect(step!.alternatives.map(({ marker }) => marker)).toContain('R_TW');
  expect(step!.tie!.settledBy).toBe('R_LE');
});

describe('a sacral marker 25 mm too high (Growney 1997, Gait Posture: blamed for the poorest of all angles, pelvic tilt)', () => {
  it('shows nowhere on an average adult, and the report says that it would not', () => {
    const report = check(displace(symmetricAdult(), 'S1', { up: 25 }));
    expect(report.verdict).toBe('ready');
    const unseen = report.coverage.unseen.find(({ markers }) => markers.includes('S1'))!;
    expect(unseen.says).toContain('looks like a tilted pelvis');
    expect(formatText(report, { columns: 80, color: false })).toContain('Not seen by any check: only palpation tells');
  });

  it('on somebody whose pelvis is tilted already, 35 mm too high, is a reason to palpate again, no more than possible', () => {
    const [step, ...more] = check(displace(placedByHand(7), 'S1', { up: 35 })).moves;
    expect(more).toEqual([]);
    expect([step!.action, step!.marker]).toEqual(['palpate-again', 'S1']);
    expect(step!.along).toMatch(/^down/);
    expect(step!.probability).toBeLessThan(0.4);
  });
});
