import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { seededRandom } from '../../../sample-trials/seeded-random.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { carryOut } from '../../support/carry-out-moves.ts';
import { placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { checkPositions, failing, sessionWith } from '../../support/still-trial.ts';

const adult = symmetricAdult();

describe('what the moves promise', () => {
  it.each([wands22, medial20])('holds when they are carried out, on random people with random faults: $name', (set) => {
    const random = seededRandom(77);
    const labels = set.markers.filter(({ label }) => adult.has(label)).map(({ label }) => label);
    let asked = 0;
    for (let seed = 1; seed <= 200; seed += 1) {
      let person: MarkerPositions = placedByHand(seed);
      const faults = Math.floor(random.between(1, 4));
      for (let fault = 0; fault < faults; fault += 1) {
        const label = labels[Math.floor(random.between(0, labels.length))]!;
        person = displace(person, label, {
          forward: random.bell(20, 2),
          left: random.bell(15, 2),
          up: random.bell(25, 2),
        });
      }
      const report = checkPositions(person, { set });
      if (report.problems.length > 0 || report.moves.length === 0) continue;
      if (report.moves.some(({ action }) => action === 'stand-again' || action === 'relabel')) continue;
      asked += 1;
      const after = failing(checkPositions(carryOut(report.moves, person), { set }));
      for (const { mm, resolves, marker, step, dependsOn } of report.moves) {
        // A step without a distance only says where to look: nothing is promised of it.
        if (mm === undefined) expect(resolves).toEqual([]);
        else expect(resolves.length, `seed ${seed}`).toBeGreaterThan(0);
        expect(
          resolves.filter((rule) => after.includes(rule)),
          `seed ${seed}, ${marker}`,
        ).toEqual([]);
        expect(dependsOn.every((earlier) => earlier < step)).toBe(true);
      }
      expect([...report.stillFailing].sort(), `seed ${seed}`).toEqual(after.sort());
      const before = failing(report);
      if (report.moves.some(({ mm }) => mm !== undefined)) expect(after.length).toBeLessThan(before.length);
      const promised = report.moves.flatMap(({ resolves }) => resolves);
      expect(new Set(promised).size, 'a finding is resolved once').toBe(promised.length);
      expect(
        before.filter((rule) => !promised.includes(rule) && !after.includes(rule)),
        `seed ${seed}`,
      ).toEqual([]);
    }
    expect(asked).toBeGreaterThan(60);
  });
});

describe('steps of one kind', () => {
  it('stand in the order of what they cost the data', () => {
    const random = seededRandom(78);
    let compared = 0;
    for (let seed = 1; seed <= 120; seed += 1) {
      let person: MarkerPositions = placedByHand(seed);
      for (const label of ['R_TW', 'L_SW', 'R_HEEL', 'L_LE', 'R_GT']) {
        person = displace(person, label, { forward: random.bell(24, 2), left: 0, up: random.bell(14, 2) });
      }
      const moves = checkPositions(person).moves.filter(({ changes }) => changes !== undefined);
      for (const action of ['palpate-again', 'move'] as const) {
        const costs = moves.filter((move) => move.action === action).map(({ changes }) => changes!.largestDeg);
        compared += Math.max(0, costs.length - 1);
        // Weighed when a marker is doubted; an earlier step may change the figure a little.
        for (let at = 1; at < costs.length; at += 1)
          expect(costs[at]! - costs[at - 1]!, `seed ${seed}`).toBeLessThan(1);
      }
    }
    expect(compared).toBeGreaterThan(60);
  });
});

describe('what was settled', () => {
  const confirmed = (...markers: string[]) => ({
    ...emptySession,
    confirmed: markers.map((marker) => ({ marker, by: 'AC', on: '2026-03-02' })),
  });

  it('is not asked again: the other marker that explains the finding is', () => {
    const person = displace(adult, 'R_LE', { up: 28 });
    expect(checkPositions(person).moves.map(({ marker }) => marker)).toEqual(['R_LE']);
    const again = checkPositions(person, {}, confirmed('R_LE'));
    expect(again.moves.map(({ marker }) => marker)).toEqual(['L_LE']);
    expect(again.moves[0]!.alternatives).toEqual([]);
  });

  it('is accepted when every marker of the rule was found on its bone', () => {
    const report = checkPositions(displace(adult, 'R_LE', { up: 28 }), {}, confirmed('R_LE', 'L_LE'));
    expect([report.verdict, report.moves]).toEqual(['ready', []]);
    expect(report.rules.find(({ id }) => id === 'knees-level')).toMatchObject({ status: 'accepted' });
  });

  it('leaves a marker that only tracks its segment where it is', () => {
    const tracking = medial20.markers.filter(({ purpose }) => purpose === 'tracks').map(({ label }) => label);
    expect(tracking.length).toBeGreaterThan(0);
    for (const marker of tracking) {
      for (const shift of [{ up: 60 }, { forward: 60 }, { forward: -60, up: -40 }]) {
        const { moves } = checkPositions(displace(adult, marker, shift), { set: medial20 });
        expect(moves.flatMap((move) => [move.marker, ...move.alternatives.map((other) => other.marker)])).not.toContain(
          marker,
        );
      }
    }
  });
});

describe('a stance that explains a finding', () => {
  // Knee bent by 40 degrees: the pelvis drops on that side.
  const bent = symmetricAdult({ left: { kneeFlexionDeg: 40 } });

  it('asks to stand again and doubts no marker for it', () => {
    const report = checkPositions(bent);
    expect(failing(report).length).toBeGreaterThan(0);
    expect(report.moves.map(({ action }) => action)).toEqual(['stand-again']);
    expect(report.moves[0]).not.toHaveProperty('marker');
    expect(report.moves[0]!.instruction).toMatch(/^Stand again: the patient's left knee is bent 4\d°/);
    expect([...report.moves[0]!.resolves].sort()).toEqual(failing(report).sort());
  });

  it('comes first, and what a marker has to answer for depends on it', () => {
    const report = checkPositions(displace(bent, 'R_HEEL', { up: 14 }));
    expect(report.moves.map(({ action, marker }) => [action, marker])).toEqual([
      ['stand-again', undefined],
      ['move', 'R_HEEL'],
    ]);
    expect(report.moves[1]!.dependsOn).toEqual([1]);
  });

  it('is expected, and not asked again, where the contracture is recorded', () => {
    const session = sessionWith({ contractures: [{ joint: 'knee', side: 'left', angleDeg: 40 }] });
    const report = checkPositions(bent, {}, session);
    expect(report.moves.map(({ action }) => action)).not.toContain('stand-again');
    expect(report.stance!.measures.find(({ id }) => id === 'knee-bent.left')!.status).toBe('expected');
    expect(report.rules.find(({ id }) => id === 'asis-level')).toMatchObject({ status: 'not-assessed' });
  });
});

describe('what the stance explains', () => {
  const bent = (right: number, left: number) =>
    symmetricAdult({ right: { kneeFlexionDeg: right }, left: { kneeFlexionDeg: left } });

  it('is a difference between the sides where one knee is bent', () => {
    const report = checkPositions(bent(3, 40));
    expect(report.moves.map(({ action }) => action)).toEqual(['stand-again']);
    expect(report.moves[0]!.resolves).toContain('asis-level');
  });

  it('is no difference between the sides where both knees are bent alike: a marker answers for it', () => {
    const report = checkPositions(displace(bent(30, 30), 'L_ASIS', { up: -40 }));
    const move = report.moves.find(({ resolves }) => resolves.includes('asis-level'))!;
    expect(move.action).toBe('palpate-again');
    expect([move.marker, ...move.alternatives.map(({ marker }) => marker)]).toContain('L_ASIS');
  });
});

describe('what cannot be told', () => {
  it('says that nothing tells the sides apart', () => {
    const person = displace(adult, 'R_MET5', { forward: 30 });
    const [move] = checkPositions(person).moves;
    expect(move!.instruction).toMatch(/^Palpate the patient's head of the fifth metatarsal again on both sides\. /);
    expect(move!.instruction).toContain('On the right the geometry expects');
    expect(move!.alternatives.map(({ marker }) => marker)).toContain('L_MET5');
  });

  it('gives a loose distance as a loose one', () => {
    const [move] = checkPositions(displace(adult, 'S1', { up: 95 })).moves;
    expect(move!.uncertaintyMm).toBeGreaterThan(15);
    expect(move!.instruction).toMatch(/about \d+ mm down, toward the feet \(give or take (20|25|30|35) mm\)/);
  });

  it('tells where to look when no shift of one marker mends a finding', () => {
    // An acromion cannot slide up: the level of the shoulders can only be looked at again.
    const report = checkPositions(displace(adult, 'R_ACR', { up: 60 }));
    const [look] = report.moves;
    expect(look).toMatchObject({ action: 'palpate-again', marker: 'R_ACR', resolves: [] });
    expect(look!.mm).toBeUndefined();
    expect(look!.instruction).toContain('no shift of one marker mends this');
    expect(report.stillFailing).toEqual(['acromia-level']);
  });
});
