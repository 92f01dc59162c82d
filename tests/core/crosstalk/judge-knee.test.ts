import { describe, expect, it } from 'vitest';
import type { KneeCrosstalk } from '../../../src/core/crosstalk/crosstalk.ts';
import { judgeKnee } from '../../../src/core/crosstalk/judge-knee.ts';
import type { KneeCurve } from '../../../src/core/crosstalk/knee-curve.ts';
import type { Leg } from '../../../src/core/gait-model/calibrate-leg.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const radians = (degrees: number): number => (degrees * Math.PI) / 180;

/** A hinge whose marked axis is turned, with varus of its own; closed form. */
function curve(turnDeg: number, ownVarusDeg: (flexionDeg: number, frame: number) => number = () => 0): KneeCurve {
  const frames = Int32Array.from({ length: 200 }, (_, frame) => frame);
  const flexion = Float64Array.from(frames, (frame) => 35 - 35 * Math.cos((2 * Math.PI * frame) / 100));
  const outward = flexion.map(
    (deg, frame) => Math.sin(radians(ownVarusDeg(deg, frame))) - Math.sin(radians(turnDeg)) * Math.sin(radians(deg)),
  );
  return {
    frames,
    flexionDeg: flexion,
    varusDeg: outward.map((sine) => (Math.asin(sine) * 180) / Math.PI),
    forward: flexion.map((deg) => Math.cos(radians(turnDeg)) * Math.sin(radians(deg))),
    outward,
    shankMm: new Float64Array(200).fill(400),
  };
}

const frame = { forward: [1, 0, 0], left: [0, 1, 0], up: [0, 0, 1] } as const;
const leg = {
  pelvis: frame,
  hip: [0, 0, 900],
  knee: [0, 0, 480],
  ankle: [0, 0, 80],
  thigh: frame,
  shank: frame,
  foot: [1, 0, 0],
};
const standing = { markers: new Float64Array(wands22.markers.length * 3), leg: leg as unknown as Leg };
wands22.markers.forEach(({ label }, index) => {
  if (label === 'R_LE') standing.markers.set([0, -57, 480], index * 3);
  if (label === 'R_TW') standing.markers.set([0, -190, 690], index * 3);
});

function judged(found: KneeCurve, staticDeg: number): KneeCrosstalk {
  const knee = judgeKnee('right', found, standing, { turnDeg: staticDeg, markers: ['R_TW'] }, wands22, 1);
  if ('reason' in knee) throw new Error(knee.reason);
  return knee;
}

describe('what movement and standing trial say together', () => {
  it.each([
    [0, 0, 'clear'],
    [4, 0, 'clear'],
    [4, 3, 'clear'],
    [8, 8, 'agrees'],
    [-8, -5, 'agrees'],
    [8, 0, 'only-moving'],
    [0, 9, 'only-static'],
    [8, -4, 'differs'],
    [8, 20, 'differs'],
  ] as const)('moving %d, standing %d degrees: %s', (turnDeg, staticDeg, agreement) => {
    const knee = judged(curve(turnDeg), staticDeg);
    expect(knee.turnDeg).toBeCloseTo(turnDeg, 6);
    expect(knee.agreement).toBe(agreement);
    expect(knee.says).not.toBe('');
    expect(knee.advice === '').toBe(agreement === 'clear');
  });

  it('varus-valgus that no turn explains is not put down to the axis', () => {
    const wobble = judged(
      curve(8, (_, at) => 12 * Math.sin(at * 1.7)),
      8,
    );
    expect(wobble.explained).toBeLessThan(0.5);
    expect(wobble.agreement).toBe('other-cause');
  });
});

describe('the uncertainty', () => {
  it('is that of knees themselves where the movement is a hinge, and grows with what does not repeat', () => {
    const hinge = judged(curve(8), 8);
    expect(hinge.scatterDeg).toBeLessThan(1e-6);
    expect(hinge.uncertaintyDeg).toBeCloseTo(2.5, 6);
    const drifting = judged(
      curve(8, (deg, at) => (deg / 70) * (at / 25)),
      8,
    );
    expect(drifting.scatterDeg).toBeGreaterThan(0.3);
  });

  it('grows no less than the turn differs between two halves of the movement', () => {
    const halves = judged(
      curve(8, (deg, at) => (at < 100 ? 0 : deg / 14)),
      8,
    );
    expect(halves.scatterDeg).toBeGreaterThan(0.5);
  });
});

describe('the figures', () => {
  it('hold the range without the outermost frames, the slope and what shows at 60 degrees', () => {
    const knee = judged(curve(-8), -8);
    // asin(sin 8 sin 60) = 6.92 degrees of varus, by hand.
    expect(knee.at60Deg).toBeCloseTo(6.92, 2);
    expect(knee.flexionDeg.most).toBeCloseTo(70, 0);
    expect(knee.varusDeg.most).toBeCloseTo(7.52, 1);
    expect(knee.slope).toBeGreaterThan(0.1);
    expect(knee.correlation).toBeGreaterThan(0.97);
    expect(knee.series.length).toBe(200);
  });

  it('name the millimetres at the tip of the wand', () => {
    // 2 * 160 * sin 4 = 22 mm; the tip is 160 mm from the line from epicondyle to hip, by hand 158.6.
    expect(judged(curve(8), 8).advice).toMatch(/by 8 degrees forward, .*: about 22 mm at its tip/);
  });
});
