import { createHash } from 'node:crypto';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { normsOf } from '../support/shipped-marker-sets.ts';
import { directionsOf, drawPlanted, sizesMm } from './faults.ts';
import { findingsOf } from './findings.ts';
import { hands } from './hands.ts';
import { measurePart } from './measure-part.ts';
import { oracle } from './oracle.ts';
import { patientKinds } from './patients.ts';
import { placeMarkers } from './place-markers.ts';
import { population } from './population.ts';
import { randomFor } from './random-for.ts';
import { interval, median } from './shares.ts';
import { summarise } from './summary.ts';

const bytes = readFileSync(new URL('../../shared/marker-sets/lower-limb-wands-22.json', import.meta.url));
const set = parseMarkerSet(bytes.toString('utf8'), createHash('sha256').update(bytes).digest('hex'));
const norms = normsOf('lower-limb-wands-22');
const careful = hands[0]!;

describe('faults', () => {
  it('come as often as the mix says', () => {
    const random = randomFor(9, 1);
    const drawn = Array.from({ length: 5000 }, () => drawPlanted(set, 20, random));
    const share = (holds: (planted: (typeof drawn)[number]) => boolean) => drawn.filter(holds).length / drawn.length;
    expect(share(({ displaced, exchanged }) => displaced.length === 0 && exchanged === null)).toBeCloseTo(0.6, 1);
    expect(share(({ displaced }) => displaced.length === 1)).toBeCloseTo(0.3, 1);
    expect(share(({ displaced }) => displaced.length === 2)).toBeCloseTo(0.08, 1);
    expect(share(({ exchanged }) => exchanged !== null)).toBeCloseTo(0.02, 1);
    for (const { displaced } of drawn) expect(new Set(displaced.map(({ label }) => label)).size).toBe(displaced.length);
  });

  it.each([true, false])('of a leader take what is set by eye along where they come before it: %s', (before) => {
    const exact = { name: 'exact', palpatedMm: 0, wandMm: 0, heelMm: 0 };
    const person = population(7).draw();
    const fault = { label: 'R_MET5', slide: 1, mm: 25, before };
    const without = placeMarkers(set, person, exact, [], randomFor(1, 1));
    const planted = placeMarkers(set, person, exact, [fault], randomFor(1, 1));
    const moved = (label: string) => planted.get(label)![2] - without.get(label)![2];
    expect(moved('R_MET5')).toBeGreaterThan(20);
    expect(moved('R_HEEL')).toBeCloseTo(before ? moved('R_MET5') : 0, 6);
    expect(moved('L_HEEL')).toBeCloseTo(0, 6);
  });

  it('are planted in every direction that the marker set can be off in, leaders both ways', () => {
    const directions = directionsOf(set);
    const slides = new Set(
      set.markers.flatMap(({ label, slides }) => slides.map((s) => `${label.replace(/^[RL]_/, '')} ${s}`)),
    );
    expect(directions.filter(({ before }) => !before)).toHaveLength(2 * slides.size);
    expect(directions.filter(({ before, landmark }) => before && landmark === 'GT')).toHaveLength(4);
    expect(directions.filter(({ before, landmark }) => before && landmark === 'S1')).toHaveLength(0);
  });
});

describe('the oracle', () => {
  const from = population(21);
  const random = randomFor(21, 1);
  const judge = oracle(set, () => placeMarkers(set, from.draw(), careful, [], random), 800);

  it('sees a wand that is 20 mm off and names it, and doubts well-marked people far less', () => {
    const oddsOf = (mm: number) =>
      Array.from({ length: 40 }, () => {
        const faults = mm === 0 ? [] : [{ label: 'L_TW', slide: 0, mm, before: false }];
        return judge.judge(placeMarkers(set, from.draw(), careful, faults, random));
      });
    const well = oddsOf(0).map(({ logOdds }) => logOdds);
    const off = oddsOf(20);
    expect(off.filter(({ first }) => first === 'L_TW').length).toBeGreaterThanOrEqual(38);
    expect(median(off.map(({ logOdds }) => logOdds))!).toBeGreaterThan(Math.max(...well));
    expect(median(well)!).toBeLessThan(0);
  });

  it('does not see a neck marker too high, which leaves hardly a residual', () => {
    const off = Array.from({ length: 40 }, () =>
      judge.judge(placeMarkers(set, from.draw(), careful, [{ label: 'C7', slide: 1, mm: 20, before: false }], random)),
    );
    expect(off.filter(({ first }) => first === 'C7').length).toBeLessThan(20);
  });
});

describe('patients', () => {
  it.each(patientKinds.map((kind) => [kind.name, kind] as const))(
    '%s: what was recorded takes findings away',
    (_, kind) => {
      const from = population(31);
      const random = randomFor(31, 2);
      let before = 0;
      let after = 0;
      for (let i = 0; i < 60; i += 1) {
        const { person, recorded, raisedMm } = kind.draw(from, random);
        const marked = placeMarkers(set, person, careful, [], random, raisedMm);
        before += findingsOf(marked, set, norms, emptySession).failing.length;
        after += findingsOf(marked, set, norms, recorded).failing.length;
      }
      expect(before).toBeGreaterThan(10);
      expect(after).toBeLessThan(before / 2);
    },
  );
});

describe('a run', () => {
  const part = { seed: 5, population: 0, hand: 1, people: 8, perDirection: 0, forOracle: 300 };
  const once = measurePart(part, set, norms);

  it('gives the same outcomes for the same seed', () => {
    expect(measurePart(part, set, norms)).toEqual(once);
  });

  it('counts everybody once', () => {
    const parts = [0, 1, 2].map((hand) => ({ ...once, part: { ...part, hand } }));
    const { rows, patients } = summarise(parts, directionsOf(set));
    const people = rows.map((row) => row.falseAlarms.n + row.flagged.n + row.two.flagged.n + row.exchanged.flagged.n);
    expect(people.reduce((sum, n) => sum + n)).toBe(3 * 8 * sizesMm.length);
    expect(patients).toHaveLength(2 * patientKinds.length);
  });
});

describe('shares', () => {
  it('have the interval of the published example', () => {
    // Newcombe 1998, Stat Med 17:857, table I, method 3 (Wilson's score), from memory: 81 of 263 is .2553 to .3662, 15 of
    // 148 is .0624 to .1605.
    const rounded = (k: number, n: number) => interval({ k, n }).map((value) => Number((value / 100).toFixed(4)));
    expect(rounded(81, 263)).toEqual([0.2553, 0.3662]);
    expect(rounded(15, 148)).toEqual([0.0624, 0.1605]);
  });
});
