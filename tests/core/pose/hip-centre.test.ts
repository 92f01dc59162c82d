import { describe, expect, it } from 'vitest';
import { hipCentre, type PelvisSize } from '../../../src/core/pose/hip-centre.ts';

/** Only what the method asks for counts; everything else is absurd on purpose. */
const absurd: PelvisSize = {
  pelvisWidthMm: 1e6,
  pelvisDepthMm: 1e6,
  legLengthMm: 1e6,
  asisTrochanterDepthMm: 1e6,
  markerRadiusMm: 1e6,
};

function expectOffset(found: ReturnType<typeof hipCentre>, forward: number, up: number, outward: number): void {
  expect(found).not.toBeNull();
  expect(found!.forward).toBeCloseTo(forward, 1);
  expect(found!.up).toBeCloseTo(up, 1);
  expect(found!.outward).toBeCloseTo(outward, 1);
}

describe('hipCentre', () => {
  // Davis et al. 1991, Hum Mov Sci 10:575-587, equations 5 and 7, worked out by hand: C = 0.115 L - 15.3 mm, theta 28.4
  // and beta 18 degrees. Each row: leg, depth, width, radius; X, distance from the midline, Z. Millimetres.
  it.each([
    [900, 80, 240, 7, -58.77, 78.05, -100.67],
    [900, 80, 240, 12.5, -64.0, 78.05, -102.37],
    [600, 50, 180, 7, -39.61, 64.46, -62.54],
    [1000, 90, 260, 7, -65.15, 82.58, -113.38],
  ])('Davis 1991: leg %d, depth %d, width %d, radius %d', (leg, depth, width, radius, x, y, z) => {
    const pelvis = { ...absurd, legLengthMm: leg, asisTrochanterDepthMm: depth, pelvisWidthMm: width };
    expectOffset(hipCentre('davis-1991', { ...pelvis, markerRadiusMm: radius }), x, z, y);
  });

  it('Davis 1991 is not what figure 3 of the paper shows, where the pelvis is tilted the wrong way', () => {
    // Erratum confirmed by the first author in 1997 (Biomch-L, t-6028): with the figure's tilt X = -(x + r) cos b - C cos t
    // sin b and Z = (x + r) sin b - C cos t cos b, here -106.7 and -46.9 mm.
    const pelvis = { ...absurd, legLengthMm: 900, asisTrochanterDepthMm: 80, pelvisWidthMm: 240, markerRadiusMm: 7 };
    const found = hipCentre('davis-1991', pelvis)!;
    expect(Math.abs(found.forward - -106.7)).toBeGreaterThan(40);
    expect(Math.abs(found.up - -46.9)).toBeGreaterThan(40);
  });

  it.each([
    [900, 67.36],
    [600, 28.72],
  ])('Davis 1991 without a measured depth: leg %d gives %d mm', (leg, depth) => {
    // Rounded default 0.1288 L - 48.56 mm (from memory).
    const pelvis = { ...absurd, legLengthMm: leg, pelvisWidthMm: 240, markerRadiusMm: 7 };
    const stated = hipCentre('davis-1991', { ...pelvis, asisTrochanterDepthMm: depth })!;
    expectOffset(
      hipCentre('davis-1991', { ...pelvis, asisTrochanterDepthMm: null }),
      stated.forward,
      stated.up,
      stated.outward,
    );
  });

  // Harrington et al. 2007, J Biomech 40:595-602, simple form: -0.24 PD - 9.9, -0.30 PW - 10.9, 0.33 PW + 7.3.
  it.each([
    [240, 155, -47.1, -82.9, 86.5],
    [180, 120, -38.7, -64.9, 66.7],
  ])('Harrington 2007, simple: width %d, depth %d', (width, depth, x, y, z) => {
    const pelvis = { ...absurd, pelvisWidthMm: width, pelvisDepthMm: depth };
    expectOffset(hipCentre('harrington-2007-simple', pelvis), x, y, z);
  });

  // Hara et al. 2016, Sci Rep 6:37707: 11 - 0.063 LL, -9 - 0.078 LL, 8 + 0.086 LL.
  it.each([
    [900, -45.7, -79.2, 85.4],
    [600, -26.8, -55.8, 59.6],
    [1000, -52.0, -87.0, 94.0],
  ])('Hara 2016: leg %d', (leg, x, y, z) => {
    expectOffset(hipCentre('hara-2016', { ...absurd, legLengthMm: leg }), x, y, z);
  });

  it('Bell 1990: width 240', () => {
    // Bell, Pedersen and Brand 1990, J Biomech 23:617-621: -0.19 PW, -0.30 PW, 0.36 PW.
    expectOffset(hipCentre('bell-1990', { ...absurd, pelvisWidthMm: 240 }), -45.6, -72.0, 86.4);
  });

  it('is not known without the leg length that a method needs', () => {
    const pelvis = { ...absurd, legLengthMm: null };
    expect(hipCentre('davis-1991', pelvis)).toBeNull();
    expect(hipCentre('hara-2016', pelvis)).toBeNull();
    expect(hipCentre('bell-1990', pelvis)).not.toBeNull();
    expect(hipCentre('harrington-2007-simple', pelvis)).not.toBeNull();
  });
});
