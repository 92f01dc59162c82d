import type { Side } from '../rule-kinds/rule-kind.ts';
import { measuredMm } from '../session/measured.ts';
import type { Session } from '../session/session.ts';

/** A length that the model rests on, and where it comes from. */
export interface ModelMeasurement {
  readonly measure: 'kneeDiameter' | 'ankleDiameter' | 'legLength' | 'asisTrochanterDepth';
  readonly side: Side;
  readonly mm: number;
  /**
   * `session`: measured by hand. `markers`: between the outer and the inner marker of the joint. `stature`: estimated
   * from the recorded stature. `shank`: estimated from a stature that itself is estimated from the shank's markers.
   */
  readonly from: 'session' | 'markers' | 'stature' | 'shank';
}

/** Whether a measurement was estimated rather than measured on the patient. */
export function isEstimated({ from }: ModelMeasurement): boolean {
  return from === 'stature' || from === 'shank';
}

/** What the patient's stature is taken as where lengths are estimated from it, mm. */
export interface UsedStature {
  readonly mm: number;
  readonly from: 'stature' | 'shank';
}

/**
 * Epicondyle height less malleolus height as a share of stature: mean of men and women of ANSUR II 2012
 * (418.8/1756.2 and 403.2/1628.5 mm).
 */
const shankPerStature = 0.243;

/** The recorded stature; else one that fits the distance of the outer knee and ankle markers. */
export function usedStature(session: Session, shankMm: number): UsedStature {
  const measured = measuredMm(session, 'stature', null);
  return measured === null ? { mm: shankMm / shankPerStature, from: 'shank' } : { mm: measured, from: 'stature' };
}

/**
 * Width of knee or ankle: as measured; else from the distance of the markers on both sides of it; else from stature.
 * @param betweenMarkersMm from surface to surface of the joint, null where there is no inner marker
 */
export function jointWidth(
  measure: 'kneeDiameter' | 'ankleDiameter',
  side: Side,
  session: Session,
  betweenMarkersMm: number | null,
  stature: UsedStature,
): ModelMeasurement {
  const measured = measuredMm(session, measure, side);
  if (measured !== null) return { measure, side, mm: measured, from: 'session' };
  if (betweenMarkersMm !== null && betweenMarkersMm > 0)
    return { measure, side, mm: betweenMarkersMm, from: 'markers' };
  return { measure, side, mm: widthByStature[measure](stature.mm, session.subject.sex), from: stature.from };
}

/** Leg length, one figure for both sides as the regressions ask for it: mean of what was measured, else from stature. */
export function legLength(side: Side, session: Session, stature: UsedStature): ModelMeasurement {
  const measured = (['right', 'left'] as const).flatMap((one) => measuredMm(session, 'legLength', one) ?? []);
  if (measured.length === 0) {
    return { measure: 'legLength', side, mm: legPerStature * stature.mm, from: stature.from };
  }
  const mm = measured.reduce((sum, leg) => sum + leg, 0) / measured.length;
  return { measure: 'legLength', side, mm, from: 'session' };
}

/** ASIS to trochanter, front to back: as measured, else from leg length by the rounded published default (from memory). */
export function asisTrochanterDepth(
  side: Side,
  session: Session,
  legMm: number,
  stature: UsedStature,
): ModelMeasurement {
  const measured = measuredMm(session, 'asisTrochanterDepth', side);
  return measured === null
    ? { measure: 'asisTrochanterDepth', side, mm: 0.1288 * legMm - 48.56, from: stature.from }
    : { measure: 'asisTrochanterDepth', side, mm: measured, from: 'session' };
}

/** ASIS to inner ankle bone as a share of stature; from memory. */
const legPerStature = 0.515;

const widthByStature = {
  /**
   * A line through about 70 mm at 1.09 m (five years), 85 at 1.385 m (ten years), 93 for women and 101 for men of mean
   * stature; from memory, no survey in our sources has it.
   */
  kneeDiameter: (statureMm: number): number => 18.4 + 0.0473 * statureMm,
  /** ANSUR II 2012, breadth over both ankle bones as a share of stature: men .0426, women .0412, unknown their mean. */
  ankleDiameter: (statureMm: number, sex: Session['subject']['sex']): number =>
    statureMm * (sex === 'male' ? 0.0426 : sex === 'female' ? 0.0412 : 0.0419),
} as const;
