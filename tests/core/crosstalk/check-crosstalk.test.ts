import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { checkTrial } from '../../../src/core/check-trial.ts';
import { checkCrosstalk } from '../../../src/core/crosstalk/check-crosstalk.ts';
import { isUsable, type KneeCrosstalk } from '../../../src/core/crosstalk/crosstalk.ts';
import type { LoadedMarkerSet } from '../../../src/core/marker-set/parse-marker-set.ts';
import { parseSession } from '../../../src/core/session/parse-session.ts';
import { standTrial } from '../../../src/core/stand-trial.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';
import { type Bend, bendKnees, kneeWidthMm, standStill } from './knee-bend.ts';

const session = parseSession(
  JSON.stringify({
    format: 'setsquare-session/1',
    measurements: ['right', 'left'].flatMap((side) => [
      { measure: 'kneeDiameter', side, value: kneeWidthMm, unit: 'mm' },
      { measure: 'ankleDiameter', side, value: 72, unit: 'mm' },
    ]),
  }),
);

/** The same set with the knee axis of its model from the medial marker. */
const byMedial: LoadedMarkerSet = {
  ...wands22,
  model: {
    ...wands22.model!,
    right: { ...wands22.model!.right, knee: { ...wands22.model!.right.knee, axisFrom: 'medial' } },
    left: { ...wands22.model!.left, knee: { ...wands22.model!.left.knee, axisFrom: 'medial' } },
  },
};

function judge(bend: Bend, { set = wands22, moving = bendKnees(bend), standing = standStill(bend) } = {}) {
  const stood = standTrial(standing, set, session, null);
  const report = checkTrial(standing, set, session, { path: 'static.c3d', sha256: '0'.repeat(64) });
  return checkCrosstalk(moving, stood, report, set, session);
}

function bothKnees(bend: Bend, set = wands22): [KneeCrosstalk, KneeCrosstalk] {
  const { knees } = judge(bend, { set });
  if (!knees.every(isUsable)) throw new Error(JSON.stringify(knees));
  return knees as unknown as [KneeCrosstalk, KneeCrosstalk];
}

describe('a knee-axis turn planted in a generated knee bend', () => {
  it('of 8 degrees is recovered within 1 degree, either way and on either side', () => {
    for (const planted of [8, -8]) {
      const [right, left] = bothKnees({ wandTurnDeg: { right: planted, left: -planted } });
      expect(Math.abs(right.turnDeg - planted)).toBeLessThan(1);
      expect(Math.abs(left.turnDeg + planted)).toBeLessThan(1);
      expect(right.explained).toBeGreaterThan(0.95);
    }
  });

  it('is recovered on any knee, bent anyhow', () => {
    const turn = fc.double({ min: -15, max: 15, noNaN: true });
    fc.assert(
      fc.property(
        turn,
        turn,
        fc.double({ min: -10, max: 15, noNaN: true }),
        fc.double({ min: -6, max: 6, noNaN: true }),
        fc.double({ min: 40, max: 95, noNaN: true }),
        fc.double({ min: -180, max: 180, noNaN: true }),
        (right, left, kneeTurnDeg, varusDeg, flexionDeg, headingDeg) => {
          const found = bothKnees({ wandTurnDeg: { right, left }, kneeTurnDeg, varusDeg, flexionDeg, headingDeg });
          expect(Math.abs(found[0].turnDeg - right)).toBeLessThan(1);
          expect(Math.abs(found[1].turnDeg - left)).toBeLessThan(1);
        },
      ),
      { numRuns: 12 },
    );
  });

  it('is recovered where the inner knee marker gives the axis', () => {
    const [right, left] = bothKnees({ wandTurnDeg: { right: 20, left: -5 }, medialTurnDeg: 8 }, byMedial);
    expect(Math.abs(right.turnDeg - 8)).toBeLessThan(1);
    expect(Math.abs(left.turnDeg - 8)).toBeLessThan(1);
    expect(right.advice).toContain('On the bone a marker stays.');
  });

  it('shows what it does at 60 degrees of flexion: valgus for an axis turned outward', () => {
    const [right] = bothKnees({ wandTurnDeg: { right: 8, left: 0 }, flexionDeg: 60, noiseMm: 0 });
    const change =
      right.series.reduce((most, one) => (one.flexionDeg > most.flexionDeg ? one : most)).varusDeg -
      right.series[0]!.varusDeg;
    expect(right.at60Deg).toBeLessThan(-6);
    expect(Math.abs(right.at60Deg - change)).toBeLessThan(0.5);
    expect(right.slope).toBeLessThan(0);
    expect(right.correlation).toBeLessThan(-0.95);
  });
});

describe('what the standing trial says of it', () => {
  it('nothing is turned: clear', () => {
    const { verdict, knees } = judge({ wandTurnDeg: { right: 0, left: 0 } });
    expect(verdict).toBe('clear');
    expect(knees.map((knee) => isUsable(knee) && knee.agreement)).toEqual(['clear', 'clear']);
  });

  it('a wand that both find turned: agrees, with the turn and the millimetres at its tip', () => {
    const { verdict, knees } = judge({ wandTurnDeg: { right: -12, left: 0 } });
    const [right, left] = knees as unknown as [KneeCrosstalk, KneeCrosstalk];
    expect(verdict).toBe('adjust');
    expect([right.agreement, left.agreement]).toEqual(['agrees', 'clear']);
    expect(right.staticMarkers).toEqual(['R_TW']);
    expect(Math.abs(right.staticTurnDeg - right.turnDeg)).toBeLessThan(4);
    expect(right.advice).toMatch(/Then turn the right thigh wand by 12 degrees backward.*: about 29 mm at its tip/);
  });

  it('a knee that goes into varus by itself is not turned into an order where its axis does not explain it', () => {
    const [right] = bothKnees({ wandTurnDeg: { right: 0, left: 0 }, ownVarusDeg: 4 });
    expect(Math.abs(right.turnDeg)).toBeLessThan(5);
    expect(right.agreement).toBe('clear');
  });
});

describe('a movement that cannot be judged says why', () => {
  const still: Bend = { wandTurnDeg: { right: 8, left: 8 } };

  it.each([
    ['hardly bends', { moving: bendKnees({ ...still, flexionDeg: 20 }) }, /knee bends by \d+ degrees; at least 30/],
    ['no C3D', { moving: new Uint8Array(600) }, /cannot be read: Not readable as C3D/],
    ['another person', { moving: enlarged(still) }, /not the same markers on the same person/],
    ['no standing', { standing: new Uint8Array(0) }, /The static trial cannot be used/],
    ['no wand', { moving: without('TW') }, /The movement has no R_TW/],
    ['a set without a model', { set: { ...wands22, model: null } }, /says nothing of a model/],
  ])('%s', (_, changes, expected) => {
    const { verdict, knees, problems } = judge(still, changes);
    expect(verdict).toBe('not-usable');
    expect([...problems, ...knees.map((knee) => (isUsable(knee) ? '' : knee.reason))].join(' ')).toMatch(expected);
  });

  function enlarged(bend: Bend): Uint8Array {
    return bendKnees({ ...bend, contents: { units: 'in' } });
  }

  /** The same points under labels that the set does not know. */
  function without(landmark: string): Uint8Array {
    const bytes = bendKnees(still);
    const text = Buffer.from(bytes.buffer, bytes.byteOffset, 8192);
    for (const side of ['R', 'L']) {
      for (let at = text.indexOf(`${side}_${landmark}`); at >= 0; at = text.indexOf(`${side}_${landmark}`)) {
        text.write('XXXX', at);
      }
    }
    return bytes;
  }
});
