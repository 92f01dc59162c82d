import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { seededRandom } from '../../../sample-trials/seeded-random.ts';
import { writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../../src/core/check-trial.ts';
import type { Norms } from '../../../src/core/decision/norms.ts';
import type { Report } from '../../../src/core/report/report.ts';
import { headline } from '../../../src/core/report/text-headline.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { measuredByHand, misread, sheetOf } from '../../support/measured-by-hand.ts';
import { describeOrdinaryPerson, placedByHand, symmetricAdult, wellPlaced } from '../../support/ordinary-people.ts';
import { normsOf, wands22 } from '../../support/shipped-marker-sets.ts';
import { stillContents } from '../../support/still-trial.ts';

const norms: Norms = normsOf('lower-limb-wands-22');
const set = { ...wands22, sha256: norms.markerSet.sha256 };

function check(positions: MarkerPositions, session: Session, by: Norms | null = norms): Report {
  return checkTrial(
    writeC3d(stillContents(positions)),
    set,
    session,
    { path: 'trial.c3d', sha256: '0'.repeat(64) },
    by,
  );
}

const adult = symmetricAdult();
const readings = measuredByHand(adult, 1700);
/** What is found besides the body mass, which nobody took. */
const found = (report: Report) => report.measurements.filter(({ status }) => status !== 'missing');
const firstReading = ({ readings: [first] }: Report['measurements'][number]) =>
  `${first!.side ?? ''} ${first!.measure}`.trim();

describe('the sheet against the trial', () => {
  it('says nothing where reading and markers go together, and lists every comparison', () => {
    const report = check(adult, sheetOf(readings));
    expect(found(report)).toEqual([]);
    const { compared, notCompared } = report.sheetAgainstTrial!;
    expect(notCompared).toEqual([]);
    expect(compared).toHaveLength(12);
    for (const { title, measure, readMm, foretoldMm } of compared) {
      // Heights of the simulated adult follow the same survey with its own scatter.
      expect(Math.abs(readMm - foretoldMm), title).toBeLessThan(measure === 'stature' ? 20 : 1);
    }
  });

  it.each([
    ['pelvisWidth', null, -45],
    ['kneeDiameter', 'right', 14],
    ['kneeDiameter', 'left', -14],
    ['ankleDiameter', 'left', 12],
    ['asisTrochanterDepth', 'right', 25],
    ['legLength', 'left', 35],
    ['stature', null, 90],
  ] as const)('doubts the reading first where %s %s is misread by %i mm', (measure, side, byMm) => {
    const report = check(adult, sheetOf(misread(readings, measure, side, byMm)));
    const [first, ...others] = found(report);
    expect([first!.status, firstReading(first!)]).toEqual(['repeat', `${side ?? ''} ${measure}`.trim()]);
    expect(first!.probability).toBeGreaterThan(0.6);
    expect(others).toEqual([]);
    expect(report.moves.map(({ action }) => action)).toEqual(['measure-again']);
    expect(report.verdict).toBe('adjust');
  });

  it('says what was read, what the markers let expect, and what is usual', () => {
    const report = check(adult, sheetOf(misread(readings, 'pelvisWidth', null, -45)));
    expect(found(report)[0]!.says).toBe(
      'The pelvis width was read as 181 mm; from R_ASIS and L_ASIS one would expect 226 mm, give or take 15 mm. About 238 mm would be usual for this patient. The reading is doubted more than the markers. If it reads the same, palpate R_ASIS and L_ASIS.',
    );
  });

  it('tells which of two sides was misread, which the sheet by itself leaves open', () => {
    for (const side of ['right', 'left'] as const) {
      const [one] = found(check(adult, sheetOf(misread(readings, 'ankleDiameter', side, 11))));
      expect([one!.check, firstReading(one!)]).toEqual(['left-against-right', `${side} ankleDiameter`]);
    }
  });

  it('doubts the marker and not the reading where the rest of the body speaks against the marker', () => {
    const report = check(displace(adult, 'R_ASIS', { left: -45 }), sheetOf(readings));
    const [one] = found(report);
    expect([one!.check, firstReading(one!), one!.status]).toEqual(['trial-against-sheet', 'pelvisWidth', 'note']);
    expect(one!.probability).toBeLessThan(0.2);
    expect(one!.says).toContain('R_ASIS) is doubted more than the reading: look there first.');
    expect(report.moves.map(({ action, marker }) => [action, marker])).toEqual([['palpate-again', 'R_ASIS']]);
  });

  it('does not doubt a reading that was taken again and found right', () => {
    const confirmed = { measure: 'pelvisWidth', side: null, by: 'MW', on: '2026-03-02' } as const;
    const session = sheetOf(misread(readings, 'pelvisWidth', null, -45), { confirmedReadings: [confirmed] });
    const [one] = found(check(adult, session));
    expect(one!.status).toBe('confirmed');
    expect(one!.probability).toBeLessThan(0.1);
    expect(one!.says).toMatch(/The reading was found right, so R_ASIS and L_ASIS may be off their bones\.$/);
    // It is not hidden where nothing else is found.
    expect(headline(check(adult, session))).toContain('with 1 hand measurement that does not go with the markers');
  });

  it('asks whose sheet it is where most readings are off the same way, and for no reading', () => {
    for (const share of [0.75, 1.3]) {
      const others = new Map([...readings].map(([name, mm]) => [name, mm * share] as const));
      const report = check(adult, sheetOf(others));
      const ofTrial = found(report).filter(({ check: name }) => /sheet/.test(name));
      expect(
        ofTrial.map(({ check: name, status }) => [name, status]),
        `${share}`,
      ).toEqual([['another-sheet', 'repeat']]);
      expect(ofTrial[0]!.says).toMatch(
        share < 1 ? / all smaller than .* It may be the sheet of another patient\.$/ : / all larger /,
      );
      const steps = report.moves.filter(({ action }) => action === 'measure-again');
      expect(steps[0]!.instruction).toMatch(/^Look first whether this is the sheet of this patient/);
      // No marker answers for a proportion to somebody else's stature.
      expect(report.moves.filter(({ marker }) => marker !== undefined)).toEqual([]);
    }
  });

  it('compares no stature where the zero of the laboratory is not the floor, and says so', () => {
    for (const [byMm, compares] of [
      [0, true],
      [20, true],
      [40, false],
      [80, false],
      [-60, true],
      [400, true],
    ] as const) {
      const raised = new Map([...adult].map(([label, [x, y, z]]) => [label, [x, y, z + byMm]] as const));
      const report = check(raised as unknown as MarkerPositions, sheetOf(readings));
      const { compared, notCompared } = report.sheetAgainstTrial!;
      expect(found(report), `${byMm}`).toEqual([]);
      expect(
        compared.some(({ measure }) => measure === 'stature'),
        `${byMm}`,
      ).toBe(compares);
      expect(
        notCompared.some(({ reason }) => reason.startsWith('the lowest marker is not where')),
        `${byMm}`,
      ).toBe(!compares);
    }
  });

  it('believes readings that differ from each other but go with the markers', () => {
    // The depth is long in this person, and the markers show it.
    const deep = displace(displace(adult, 'R_GT', { forward: -14 }), 'L_GT', { forward: -14 });
    const report = check(deep, sheetOf(measuredByHand(deep, 1700)));
    const depths = found(report).filter(({ check: name }) => name === 'depth-against-ankle');
    expect(depths.map(({ status }) => status)).not.toContain('repeat');
  });

  it('has the reading taken again where nothing can weigh the two', () => {
    const [one] = found(check(adult, sheetOf(misread(readings, 'pelvisWidth', null, -45)), null));
    expect([one!.status, one!.probability]).toEqual(['repeat', null]);
    expect(one!.says).toContain('Which of the two is wrong cannot be told from here.');
  });

  it('leaves nearly all well-marked and well-measured adults alone, and asks for four in five of the pelvis widths misread by 50 mm', () => {
    /** Spread of readings, mm: what both sides share, and each by itself; as common practice reads them. */
    const spread = { pelvisWidth: [0, 10], kneeDiameter: [4, 2], ankleDiameter: [3, 2], legLength: [10, 4] } as const;
    let doubted = 0;
    let asked = 0;
    const people = 40;
    for (let seed = 1; seed <= people; seed++) {
      const given = { ageYears: 30, statureMm: 1690 };
      const random = seededRandom(seed + 900_000);
      const shared = {
        pelvisWidth: 0,
        kneeDiameter: random.bell(1, 3),
        ankleDiameter: random.bell(1, 3),
        legLength: 0,
      };
      const read = new Map(
        [...measuredByHand(wellPlaced(seed, given), 1690)].map(([name, mm]) => {
          const measure = name[0] as keyof typeof spread;
          const [alike, own] = spread[measure] ?? [0, 3];
          return [name, mm + alike * (shared[measure] ?? 0) + own * random.bell(1, 3)];
        }),
      );
      const { sex } = describeOrdinaryPerson(seed, given);
      const about = { subject: { code: `MR-${seed}`, ageYears: 30, sex } };
      const markers = placedByHand(seed, given);
      const ofTrial = (report: Report) => found(report).filter((one) => one.check === 'trial-against-sheet');
      doubted += ofTrial(check(markers, sheetOf(read, about))).length;
      const wrong = ofTrial(check(markers, sheetOf(misread(read, 'pelvisWidth', null, 50), about)));
      asked += wrong.filter((one) => firstReading(one) === 'pelvisWidth' && one.status === 'repeat').length;
    }
    // Of 480 comparisons one in eighty is beyond 2.5 SD by chance.
    expect(doubted).toBeLessThanOrEqual(6);
    expect(asked).toBeGreaterThanOrEqual(0.8 * people);
  });
});

describe('what cannot be compared', () => {
  const notCompared = (positions: MarkerPositions, session: Session) =>
    check(positions, session).sheetAgainstTrial!.notCompared.map(({ title, reason }) => `${title}: ${reason}`);

  it('heights, where the patient does not stand straight or is no adult', () => {
    const bent = { ...emptySession.facts, supported: true };
    expect(notCompared(adult, sheetOf(readings, { facts: bent }))).toEqual([
      'Stature, by the neck marker: the patient is supported',
      'Stature, by the right trochanter: the patient is supported',
      'Stature, by the left trochanter: the patient is supported',
    ]);
    const unknown = { subject: { code: 'MR-01', ageYears: null, sex: null } };
    expect(notCompared(adult, sheetOf(readings, unknown))).toContain(
      'Stature, by the neck marker: the age is not recorded, and the published proportions are those of adults',
    );
  });

  it('a joint whose inner marker is not on', () => {
    const without = new Map(adult);
    without.delete('R_ME');
    expect(notCompared(without, sheetOf(readings))).toEqual(['Knee diameter, right: R_ME is not seen']);
  });

  it('a reading that the sheet by itself has shown to be a slip', () => {
    const inches = sheetOf(misread(readings, 'pelvisWidth', null, 9 - readings.get([...readings.keys()][1]!)!));
    expect(notCompared(adult, inches)).toEqual(['Pelvis width: the reading is to be taken again first']);
  });

  it('nothing at all, without readings', () => {
    expect(check(adult, emptySession).sheetAgainstTrial).toBeNull();
  });
});
