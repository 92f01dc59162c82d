import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../../src/core/check-trial.ts';
import { readerNote } from '../../../src/core/reader-note/reader-note.ts';
import type { Report } from '../../../src/core/report/report.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { measuredByHand, misread, sheetOf } from '../../support/measured-by-hand.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { normsOf, wands22 } from '../../support/shipped-marker-sets.ts';
import { checkPositions, stillContents } from '../../support/still-trial.ts';
import { buildReport, buildRule } from '../report/build-report.ts';

const rule = 'thigh-wand-in-line.right';
const waived = { rule, by: 'AC', on: '2026-03-02', reason: 'a dressing lies there' };
const wandForward = displace(symmetricAdult(), 'R_TW', { forward: 25 });

/** With norms, so that markers are weighed. */
function checkStill(positions: MarkerPositions, session: Session): Report {
  const norms = normsOf('lower-limb-wands-22');
  const set = { ...wands22, sha256: norms.markerSet.sha256 };
  return checkTrial(writeC3d(stillContents(positions)), set, session, { path: 'trial.c3d', sha256: '' }, norms);
}

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

  it('gives a palpated marker the same degrees whether it is accepted or open, as a range', () => {
    const high = displace(symmetricAdult(), 'S1', { up: 95 });
    const by = (session: Session) => checkStill(high, session);
    const [open, accepted] = [by(sessionOf({})), by(sessionOf({ accepted: [{ ...waived, rule: 'sacral-square' }] }))];
    const step = open.moves.find(({ marker }) => marker === 'S1')!;
    const kept = accepted.kept.find(({ rules }) => rules.includes('sacral-square'))!.step!;
    expect(kept.marker).toBe('S1');
    expect(kept.distanceMm!).toBeCloseTo(step.distanceMm!, 0);
    const [first, second] = [open, accepted].map(
      (report) => /hip flexion on both sides \(([^)]*)\)/.exec(readerNote(report))![1],
    );
    expect(first).toBe(second);
    expect(readerNote(open)).toContain('Standing, as these markers show it: ');
    expect(readerNote(open)).toMatch(/not settled before this capture/);
  });

  it('calls accepted wands of both sides no habit', () => {
    const both = displace(wandForward, 'L_TW', { forward: 25 });
    const note = (rules: readonly string[]) =>
      readerNote(checkPositions(both, {}, sessionOf({ accepted: rules.map((one) => ({ ...waived, rule: one })) })));
    expect(note([])).toContain('habit');
    expect(note([rule, 'thigh-wand-in-line.left'])).not.toContain('habit');
  });

  it('says of exchanged sides that no angle is to be read', () => {
    const swapped = new Map(
      [...symmetricAdult()].map(([label, place]) => [
        label.startsWith('R_') ? `L_${label.slice(2)}` : label.startsWith('L_') ? `R_${label.slice(2)}` : label,
        place,
      ]),
    );
    expect(readerNote(checkPositions(swapped, {}, sessionOf({})))).toContain(
      'Read no angle of either leg until the labels have been put right.',
    );
  });

  it('states a reading that does not go with the markers, and orders nothing', () => {
    const readings = misread(measuredByHand(symmetricAdult(), 1700), 'pelvisWidth', null, -45);
    for (const confirmedReadings of [
      [],
      [{ measure: 'pelvisWidth', side: null, by: 'AC', on: '2026-03-02' } as const],
    ]) {
      const note = readerNote(checkStill(symmetricAdult(), sheetOf(readings, { confirmedReadings })));
      expect(note).toMatch(
        /A hand measurement is in doubt, .*: The pelvis width was read as 181 mm, and by the markers \(R_ASIS, L_ASIS\) it would be 226 mm: one of the two is off\./,
      );
      expect(note).not.toMatch(/palpate|again/i);
    }
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
