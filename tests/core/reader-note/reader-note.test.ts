import { describe, expect, it } from 'vitest';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { readerNote } from '../../../src/core/reader-note/reader-note.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { checkPositions } from '../../support/still-trial.ts';
import { buildReport, buildRule } from '../report/build-report.ts';

const rule = 'thigh-wand-in-line.right';
const waived = { rule, by: 'AC', on: '2026-03-02', reason: 'a dressing lies there' };
const wandForward = displace(symmetricAdult(), 'R_TW', { forward: 25 });

const sessionOf = (rest: Partial<Session>): Session => ({
  ...emptySession,
  subject: { ...emptySession.subject, code: 'MR-40' },
  ...rest,
});
const noteOf = (rest: Partial<Session>) => readerNote(checkPositions(wandForward, {}, sessionOf(rest)));

describe('the note for the reader', () => {
  it('says which angles an accepted marker shifts, how far, who accepted it, when and why', () => {
    const report = checkPositions(wandForward, {}, sessionOf({ accepted: [waived] }));
    expect([report.verdict, report.moves]).toEqual(['ready', []]);
    const [kept, ...others] = report.kept;
    expect(others).toEqual([]);
    expect(kept!.rules).toEqual([rule]);
    expect(readerNote(report)).toMatch(
      /^Marker placement in the static trial of MR-40: Read right hip rotation \(about \d+ degrees\), .* with caution: the tip of the right thigh wand is \d+ mm in front of the line from trochanter to epicondyle; accepted by AC on 2026-03-02: a dressing lies there\. /,
    );
  });

  it('tells the degrees of the step that is asked for where nobody accepts it', () => {
    const asked = checkPositions(wandForward).moves[0]!;
    const { step } = checkPositions(wandForward, {}, sessionOf({ accepted: [waived] })).kept[0]!;
    expect(step!.marker).toBe(asked.marker);
    expect(step!.changes!.largestDeg).toBeCloseTo(asked.changes!.largestDeg, 6);
    expect(step!.changes!.largestDeg).toBeGreaterThan(5);
  });

  it('says of a step that is still open that it was not put right', () => {
    const note = noteOf({});
    expect(note).toContain('in front of the line from trochanter to epicondyle; not put right before this capture.');
    expect(note).not.toContain('accepted');
  });

  it('names no degrees for markers that were found on their bone', () => {
    const heel = displace(symmetricAdult(), 'L_HEEL', { up: -14 });
    const confirmed = ['L_HEEL', 'L_MET5'].map((marker) => ({ marker, by: 'AC', on: '2026-03-02' }));
    const report = checkPositions(heel, {}, sessionOf({ confirmed }));
    const note = readerNote(report);
    expect(report.kept.find(({ rules }) => rules.includes('heel-level.left'))!.step).toBeNull();
    expect(note).toContain('too low against the outer forefoot marker; confirmed on the bone by AC on 2026-03-02.');
    expect(note).not.toContain('Read ');
  });

  it('says that there is nothing only where there is nothing', () => {
    const clean = readerNote(checkPositions(symmetricAdult(), {}, sessionOf({})));
    expect(clean).toContain('static trial of MR-40: nothing was found that asks for caution.');
    for (const changes of [
      { rules: [buildRule({ status: 'borderline', says: 'the wand is 6 mm in front' })] },
      { problems: [{ code: 'marker-gap', severity: 'warning', markers: [], message: 'it has gaps', remedy: 'x' }] },
      { notes: [{ code: 'variant', rules: [], message: 'recorded: a supinated foot' }] },
    ] as const) {
      expect(readerNote(buildReport(changes as never)), JSON.stringify(changes)).not.toContain('nothing was found');
    }
  });

  it('counts what could not be checked, with the reason', () => {
    const without = new Map(symmetricAdult());
    without.delete('R_MET5');
    const report = checkPositions(without, {}, sessionOf({}));
    const not = report.rules.filter(({ reason }) => reason === 'not seen or not known: R_MET5').length;
    expect(not).toBeGreaterThan(2);
    const { rules, assessed } = report.coverage;
    expect(readerNote(report)).toContain(
      `${assessed} of ${rules} checks could be made; ${not} not (not seen or not known: R_MET5);`,
    );
  });

  it('of a trial that cannot be judged says why, and that nothing is confirmed', () => {
    const report = checkPositions(new Map([...symmetricAdult()].slice(0, 3)), {}, sessionOf({}));
    expect(report.verdict).toBe('not-assessable');
    const note = readerNote(report);
    expect(note).toMatch(/: This trial cannot be judged: /);
    expect(note.trim()).toMatch(/No joint angle that rests on it has been confirmed\.$/);
  });

  it('is one line, with what a terminal would obey written out, and names no file', () => {
    const reason = 'a\nb\u001b[2J';
    const note = noteOf({ accepted: [{ ...waived, reason }] });
    expect(note.trim().split('\n')).toHaveLength(1);
    expect(note).toContain('a\\u000ab\\u001b[2J');
    expect(readerNote(buildReport())).not.toContain('Anna');
  });
});
