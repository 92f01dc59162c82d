import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import { displace, swapLabels } from '../../../sample-trials/plant-fault.ts';
import { modelBody } from '../../../src/core/decision/body-model.ts';
import { weighExchanges } from '../../../src/core/decision/exchanges.ts';
import type { Norms } from '../../../src/core/decision/norms.ts';
import { weighMarkers } from '../../../src/core/decision/weigh-markers.ts';
import { logDeterminant, solveLowerInPlace } from '../../../src/core/geometry/cholesky.ts';
import { bodyFromPositions } from '../../../src/core/pose/body-from-positions.ts';
import { type StandingBody, withMarkersAt } from '../../../src/core/pose/standing-body.ts';
import { assessRules, isAssessed } from '../../../src/core/rules/assess-rules.ts';
import { expectedRules } from '../../../src/core/rules/expected-rules.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { normsOf, wands22 } from '../../support/shipped-marker-sets.ts';

const norms: Norms = normsOf('lower-limb-wands-22');
const nobody = new Set<string>();

function standing(positions: MarkerPositions) {
  const body = bodyFromPositions(wands22, emptySession, (label) => positions.get(label))!;
  const assessed = assessRules(body, expectedRules(wands22, emptySession), emptySession).filter(isAssessed);
  return { body, assessed };
}

function weigh(positions: MarkerPositions) {
  const { body, assessed } = standing(positions);
  return weighMarkers(body, assessed, norms, nobody)!;
}

/** Log of the normal density, without the constant that all share. */
function logDensity(deviation: Float64Array, covarianceLower: Float64Array): number {
  const white = deviation.slice();
  solveLowerInPlace(covarianceLower, deviation.length, white);
  return -(white.reduce((sum, x) => sum + x * x, 0) + logDeterminant(covarianceLower, deviation.length)) / 2;
}

describe('exchanged labels, weighed', () => {
  it('are no explanation of ordinary people, whose order rules every exchange out', () => {
    for (let seed = 1; seed <= 40; seed += 1) expect(weigh(placedByHand(seed)).exchange, `seed ${seed}`).toBeNull();
  });

  it.each([
    ['R_LE', 'R_HF', 20],
    ['L_LM', 'L_MET5', 30],
    ['R_TW', 'R_LE', 60],
  ] as const)('explain %s and %s on each other, the first %i mm too high besides', (first, second, up) => {
    const { exchange, explanations } = weigh(swapLabels(displace(symmetricAdult(), first, { up }), first, second));
    expect(exchange!.labels.toSorted()).toEqual([first, second].toSorted());
    expect(exchange!.probability).toBeGreaterThan(0.95);
    expect(explanations[0]!.probability).toBeLessThan(0.05);
  });

  it('do not explain a marker that is far off its place', () => {
    for (const [label, off] of [
      ['R_LE', { up: 35 }],
      ['R_LE', { up: -35 }],
      ['L_HF', { up: 40 }],
      ['L_LM', { up: -40 }],
      ['R_TW', { forward: 40 }],
    ] as const) {
      const { exchange } = weigh(displace(symmetricAdult(), label, off));
      expect(exchange?.probability ?? 0, label).toBeLessThan(0.1);
    }
  });

  it('have the evidence of both densities, each by its own expectation, to 1e-9', () => {
    const swapped = standing(swapLabels(displace(symmetricAdult(), 'R_LE', { up: 20 }), 'R_LE', 'R_HF'));
    const model = modelBody(swapped.body, swapped.assessed, norms, nobody)!;
    const modelOf = (body: StandingBody) => modelBody(body, model.rules, norms, nobody);
    const index = (label: string): number => wands22.markers.findIndex((marker) => marker.label === label);
    const pair = [index('R_LE'), index('R_HF')].toSorted((a, b) => a - b);
    const found = weighExchanges(model, modelOf).find(
      (one) => one.ways.length === 0 && one.pair.join() === pair.join(),
    )!;

    const lab = swapped.body.lab.slice();
    for (let axis = 0; axis < 3; axis++) {
      lab[pair[0]! * 3 + axis] = swapped.body.lab[pair[1]! * 3 + axis]!;
      lab[pair[1]! * 3 + axis] = swapped.body.lab[pair[0]! * 3 + axis]!;
    }
    const right = modelOf(withMarkersAt(swapped.body, lab))!;
    const ratio = logDensity(right.deviation, right.whitened.lower) - logDensity(model.deviation, model.whitened.lower);
    // Labels of HF and LE are often exchanged: odds of 0.002.
    expect(Math.abs(found.logOdds - Math.log(0.002) - ratio)).toBeLessThan(1e-9 * Math.abs(ratio));
  });
});
