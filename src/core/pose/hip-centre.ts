import type { HipCentreMethod } from '../marker-set/marker-set.ts';

/** What the regressions ask for; mm. */
export interface PelvisSize {
  /** Between the two ASIS. */
  readonly pelvisWidthMm: number;
  /** From the middle of the ASIS to the middle of the PSIS. */
  readonly pelvisDepthMm: number;
  /** From ASIS to medial malleolus; null where nobody measured it. */
  readonly legLengthMm: number | null;
  /** ASIS to trochanter, front to back, measured; null: estimated from leg length. */
  readonly asisTrochanterDepthMm: number | null;
  readonly markerRadiusMm: number;
}

/** Hip centre from the middle of the ASIS in the pelvis's own axes, mm; `outward` is away from the midline. */
export interface HipOffset {
  readonly forward: number;
  readonly up: number;
  readonly outward: number;
}

const davisTheta = (28.4 * Math.PI) / 180;
const davisBeta = (18 * Math.PI) / 180;

/**
 * Hip joint centre by a published regression; null where it needs a leg length that was not measured.
 *
 * - `harrington-2007-simple`: J Biomech 40:595-602. Depth is mid-ASIS to mid-PSIS.
 * - `hara-2016`: Sci Rep 6:37707, from leg length alone.
 * - `bell-1990`: J Biomech 23:617-621, from pelvis width alone.
 * - `davis-1991`: Hum Mov Sci 10:575-587, equations 5 and 7 (the pelvis is drawn tilted the wrong way in figure 3).
 *   Without a measured depth, the rounded default 0.1288 L - 48.56 mm (from memory).
 */
export function hipCentre(method: HipCentreMethod, pelvis: PelvisSize): HipOffset | null {
  const { pelvisWidthMm: width, pelvisDepthMm: depth, legLengthMm: leg } = pelvis;
  switch (method) {
    case 'harrington-2007-simple':
      return { forward: -0.24 * depth - 9.9, up: -0.3 * width - 10.9, outward: 0.33 * width + 7.3 };
    case 'bell-1990':
      return { forward: -0.19 * width, up: -0.3 * width, outward: 0.36 * width };
    case 'hara-2016':
      if (leg === null) return null;
      return { forward: 11 - 0.063 * leg, up: -9 - 0.078 * leg, outward: 8 + 0.086 * leg };
    case 'davis-1991': {
      if (leg === null) return null;
      const c = 0.115 * leg - 15.3;
      const back = -(pelvis.asisTrochanterDepthMm ?? 0.1288 * leg - 48.56) - pelvis.markerRadiusMm;
      return {
        forward: back * Math.cos(davisBeta) + c * Math.cos(davisTheta) * Math.sin(davisBeta),
        up: back * Math.sin(davisBeta) - c * Math.cos(davisTheta) * Math.cos(davisBeta),
        outward: width / 2 - c * Math.sin(davisTheta),
      };
    }
  }
}
