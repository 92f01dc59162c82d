import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace } from '../../../sample-trials/plant-fault.ts';
import type { Norms } from '../../../src/core/decision/norms.ts';
import { weighMarkers } from '../../../src/core/decision/weigh-markers.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { assessRules, isAssessed } from '../../../src/core/rules/assess-rules.ts';
import { expectedRules } from '../../../src/core/rules/expected-rules.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { normsOf, wands22 } from '../../support/shipped-marker-sets.ts';

const norms: Norms = normsOf('lower-limb-wands-22');

function weigh(positions: MarkerPositions, trusted: readonly string[] = []) {
  const body = bodyFromPositions(wands22, emptySession, (label) => positions.get(label))!;
  const outcomes = assessRules(body, expectedRules(wands22, emptySession), emptySession).filter(isAssessed);
  return weighMarkers(body, outcomes, norms, new Set(trusted))!;
}

/** Norms with one more residual that goes wherever another one goes. */
function withRowRepeated(id: string, as: string): Norms {
  const at = norms.residuals.indexOf(id);
  const n = norms.residuals.length;
  const value = (i: number): number => {
    const [row, column] = [Math.max(i, at), Math.min(i, at)];
    return norms.covariance[(row * (row + 1)) / 2 + column]!;
  };
  const row = [...norms.residuals.keys()].map(value);
  return {
    ...norms,
    residuals: [...norms.residuals, as],
    mean: [...norms.mean, norms.mean[at]!],
    covariance: [...norms.covariance.slice(0, (n * (n + 1)) / 2), ...row, value(at)],
  };
}

const adult = symmetricAdult();

describe('weighing which marker is off', () => {
  it('finds nothing wrong with people who are marked well', () => {
    for (let seed = 1; seed <= 40; seed += 1) {
      const { explanations } = weigh(placedByHand(seed));
      expect(explanations[0]!.kind, `seed ${seed}`).toBe('well-marked');
    }
  });

  it.each([
    ['R_TW', { forward: 18 }],
    ['L_SW', { forward: -18 }],
    ['L_HEEL', { up: -14 }],
    ['R_LE', { up: 30 }],
    ['L_LM', { forward: 25 }],
    ['R_MET5', { up: 16 }],
    ['R_ASIS', { up: 35 }],
  ] as const)('names %s, off by %o, and how far', (label, off) => {
    const weighed = weigh(displace(adult, label, off));
    const best = weighed.explanations[0]!;
    expect([best.kind, best.markers]).toEqual(['displaced', [label]]);
    expect(weighed.probability(label)).toBeGreaterThan(0.6);
    const [axis, mm] = Object.entries(off)[0]!;
    const found = best.offMm[0]!.vector[axis === 'forward' ? 0 : 2]!;
    expect(Math.abs(found - mm)).toBeLessThan(Math.abs(mm) * 0.45);
    const way = [0, 0, 0] as [number, number, number];
    way[axis === 'forward' ? 0 : 2] = Math.sign(mm);
    expect(weighed.probabilityToward(label, way)).toBeGreaterThan(0.6);
    expect(weighed.probabilityToward(label, way.map((x) => -x + 0) as [number, number, number])).toBeLessThan(0.05);
  });

  it('adds up to a probability, also over several explanations', () => {
    const { explanations } = weigh(displace(displace(adult, 'R_TW', { forward: 20 }), 'L_HEEL', { up: 15 }));
    expect(explanations[0]!.markers.toSorted()).toEqual(['L_HEEL', 'R_TW']);
    expect(explanations.reduce((sum, { probability }) => sum + probability, 0)).toBeLessThanOrEqual(1 + 1e-12);
    expect(explanations.every(({ converged }) => converged)).toBe(true);
  });

  it('believes a marker that was confirmed on the bone, and weighs the rest again', () => {
    const person = displace(adult, 'R_LE', { up: 30 });
    const before = weigh(person);
    const after = weigh(person, ['R_LE']);
    expect(after.probability('R_LE')).toBeLessThan(before.probability('R_LE'));
    expect(after.probability('L_LE')).toBeGreaterThan(before.probability('L_LE'));
  });

  it('takes a rule that says what another one says for what it is: nothing new', () => {
    const person = displace(adult, 'R_LE', { up: 25 });
    const body = bodyFromPositions(wands22, emptySession, (label) => person.get(label))!;
    const assessed = assessRules(body, expectedRules(wands22, emptySession), emptySession)
      .filter(isAssessed)
      .map((outcome) => ({ ...outcome, averagingSd: 0 }));
    const once = weighMarkers(body, assessed, norms, new Set())!;
    const repeated = assessed.find(({ rule }) => rule.id === 'knees-level')!;
    const twice = weighMarkers(
      body,
      [...assessed, { ...repeated, rule: { ...repeated.rule, id: 'knees-level-again' } }],
      withRowRepeated('knees-level', 'knees-level-again'),
      new Set(),
    )!;
    expect(twice.probability('R_LE')).toBeCloseTo(once.probability('R_LE'), 9);
    expect(twice.explanations.map(({ markers }) => markers)).toEqual(once.explanations.map(({ markers }) => markers));
  });

  it('says of no marker that it is further off than 60 mm', () => {
    for (const up of [60, 80, 110]) {
      for (const { markers, offMm } of weigh(displace(adult, 'R_LE', { up })).explanations)
        for (const { vector } of offMm) expect(Math.hypot(...vector), markers.join()).toBeLessThan(61);
    }
  });

  it('takes a body that is unusual all over for one, and not for three markers off', () => {
    // Every landmark a little off: three times the usual spread, in no pattern.
    let best = 0;
    for (let seed = 1; seed <= 10; seed++) {
      const usual = placedByHand(seed);
      const other = placedByHand(seed + 100);
      const mixed = new Map(
        [...usual].map(([label, [x, y, z]], index) => {
          const [ox, , oz] = other.get(label)!;
          const way = index % 2 === 0 ? 1 : -1;
          return [
            label,
            [x + way * Math.min(14, Math.abs(ox - x)), y, z + way * Math.min(8, Math.abs(oz - z))] as [
              number,
              number,
              number,
            ],
          ];
        }),
      );
      best = Math.max(best, weigh(mixed).explanations.find(({ kind }) => kind === 'unusual-body')?.probability ?? 0);
    }
    expect(best).toBeGreaterThan(0.2);
  });

  it('mirrors', () => {
    const right = weigh(displace(adult, 'R_LE', { up: 22, forward: 8 }));
    const left = weigh(displace(adult, 'L_LE', { up: 22, forward: 8 }));
    expect(left.probability('L_LE')).toBeCloseTo(right.probability('R_LE'), 2);
  });
});

/** What geometry cannot tell, shown by the model: docs/what-geometry-cannot-tell.md. */
describe('ties and traps', () => {
  it('an ASIS 25 mm forward has no finding of its own, and turns the body by about 6 degrees', () => {
    const turned = bodyFromPositions(wands22, emptySession, (label) =>
      displace(adult, 'R_ASIS', { forward: 25 }).get(label),
    )!;
    const { forward } = turned.geometry.axes(turned.lab);
    const turnDeg = (Math.atan2(Math.abs(forward[1]), forward[0]) * 180) / Math.PI;
    expect(turnDeg).toBeGreaterThan(5);
    expect(turnDeg).toBeLessThan(7);
    expect(weigh(displace(adult, 'R_ASIS', { forward: 25 })).probability('R_ASIS')).toBeLessThan(0.2);
  });

  it('both ASIS up look like the sacral marker down, or like a pelvis that is tilted', () => {
    const both = weigh(displace(displace(adult, 'R_ASIS', { up: 25 }), 'L_ASIS', { up: 25 }));
    expect(both.explanations[0]!.kind).toBe('well-marked');
    expect(both.probability('R_ASIS')).toBeLessThan(0.3);
  });

  it('a mirrored pair, right up and left down, is a tie between the two', () => {
    const pair = weigh(displace(displace(adult, 'R_LE', { up: 14 }), 'L_LE', { up: -14 }));
    expect(pair.probability('R_LE') / pair.probability('L_LE')).toBeGreaterThan(1 / 3);
    expect(pair.probability('R_LE') / pair.probability('L_LE')).toBeLessThan(3);
  });

  it('a wand off by d looks like the landmarks of its line off by d over their share of it', () => {
    const wand = weigh(displace(adult, 'R_TW', { forward: 20 }));
    expect(wand.probability('R_TW')).toBeGreaterThan(wand.probability('R_GT'));
    expect(wand.probability('R_TW')).toBeGreaterThan(wand.probability('R_LE'));
    // The trochanter by itself would have to be off by twice as much, the other way.
    expect(wand.off('R_GT')!.vector[0]).toBeLessThan(-15);
  });

  it('a wand off by d has the same finding as the epicondyle off by d / t, or the trochanter by d / (1 - t)', () => {
    const body = bodyFromPositions(wands22, emptySession, (label) => adult.get(label))!;
    const [hip, wand, knee] = ['R_GT', 'R_TW', 'R_LE'].map((label) => adult.get(label)![2]) as [number, number, number];
    // Share of the way down from the trochanter at which the wand stands.
    const t = (hip - wand) / (hip - knee);
    const { forward } = body.geometry.axes(body.lab);
    expect(forward[0]).toBeCloseTo(1, 6);
    const inLine = (positions: MarkerPositions): number => {
      const moved = bodyFromPositions(wands22, emptySession, (label) => positions.get(label))!;
      const outcome = assessRules(moved, expectedRules(wands22, emptySession), emptySession)
        .filter(isAssessed)
        .find(({ rule }) => rule.id === 'thigh-wand-in-line.right')!;
      return outcome.description.value;
    };
    const d = 8;
    const byWand = inLine(displace(adult, 'R_TW', { forward: d })) - inLine(adult);
    expect(byWand).toBeCloseTo(d, 0);
    // Along the knee's own axis, which the epicondyle turns: with the inner knee marker brought along it does not.
    const knees = displace(displace(adult, 'R_LE', { forward: -d / t }), 'R_ME', { forward: -d / t });
    expect((inLine(knees) - inLine(adult)) / byWand).toBeCloseTo(1, 1);
    const byHip = inLine(displace(adult, 'R_GT', { forward: -d / (1 - t) })) - inLine(adult);
    expect(byHip / byWand).toBeCloseTo(1, 1);
  });

  it('a fault on both sides hides in the posture', () => {
    const both = weigh(displace(displace(adult, 'R_LE', { up: 20 }), 'L_LE', { up: 20 }));
    expect(both.explanations[0]!.kind).toBe('well-marked');
  });

  it('a follower that was set on a displaced leader hides the leader from the rules of the protocol', () => {
    const alone = weigh(displace(adult, 'R_MET5', { up: 12 }));
    const followed = weigh(displace(displace(adult, 'R_MET5', { up: 12 }), 'R_HEEL', { up: 12 }));
    expect(alone.explanations[0]!.kind).toBe('displaced');
    expect(followed.probability('R_MET5')).toBeLessThan(alone.probability('R_MET5'));
  });
});
