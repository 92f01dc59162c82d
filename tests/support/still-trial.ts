import type { MarkerPositions } from '../../sample-trials/landmarks.ts';
import { type C3dContents, writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../src/core/check-trial.ts';
import type { Vec3 } from '../../src/core/geometry/vector.ts';
import type { LoadedMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import type { Report } from '../../src/core/report/report.ts';
import { emptySession, type PatientFacts, type Session } from '../../src/core/session/session.ts';
import { wands22 } from './shipped-marker-sets.ts';

export type UpAxis = '+X' | '-X' | '+Y' | '-Y' | '+Z' | '-Z';

export interface Filming {
  readonly set: LoadedMarkerSet;
  readonly upAxis: UpAxis;
  /** Turned about the vertical, counter-clockwise seen from above. */
  readonly headingDeg: number;
  /** Where the body axes' origin stands, in a lab whose Z is up, mm. */
  readonly standsAtMm: Vec3;
  readonly units: 'mm' | 'cm' | 'm' | 'in';
  readonly frames: number;
  readonly contents: Partial<C3dContents>;
}

const asUsual: Filming = {
  set: wands22,
  upAxis: '+Z',
  headingDeg: 0,
  standsAtMm: [0, 0, 0],
  units: 'mm',
  frames: 4,
  contents: {},
};

const perMm = { mm: 1, cm: 0.1, m: 0.001, in: 1 / 25.4 } as const;

/** A Z-up room tipped over so that another axis is up; rotations, never mirror images. */
const tipped: Record<UpAxis, (p: Vec3) => Vec3> = {
  '+Z': ([x, y, z]) => [x, y, z],
  '-Z': ([x, y, z]) => [x, -y, -z],
  '+Y': ([x, y, z]) => [x, z, -y],
  '-Y': ([x, y, z]) => [x, -z, y],
  '+X': ([x, y, z]) => [z, x, y],
  '-X': ([x, y, z]) => [-z, y, x],
};

export function toLab([forward, left, up]: Vec3, { headingDeg, standsAtMm, upAxis, units }: Filming): Vec3 {
  const heading = (headingDeg * Math.PI) / 180;
  const inRoom: Vec3 = [
    standsAtMm[0] + forward * Math.cos(heading) - left * Math.sin(heading),
    standsAtMm[1] + forward * Math.sin(heading) + left * Math.cos(heading),
    standsAtMm[2] + up,
  ];
  return tipped[upAxis](inRoom).map((mm) => mm * perMm[units]) as Vec3;
}

/** Somebody who does not move at all: every frame shows the positions exactly. Only labels of the set are written. */
export function stillContents(positions: MarkerPositions, filming: Partial<Filming> = {}): C3dContents {
  const how = { ...asUsual, ...filming };
  const labels = how.set.markers.map((marker) => marker.label).filter((label) => positions.has(label));
  const frame = labels.flatMap((label) => [...toLab(positions.get(label)!, how), 0]);
  const values = Float32Array.from({ length: how.frames * frame.length }, (_, index) => frame[index % frame.length]!);
  return {
    rateHz: 100,
    units: how.units,
    labels,
    pointCount: labels.length,
    frameCount: how.frames,
    values,
    screen: { x: '+X', y: how.upAxis },
    ...how.contents,
  };
}

export function checkBytes(bytes: Uint8Array, session: Session = emptySession, set = wands22): Report {
  return checkTrial(bytes, set, session, { path: 'trial.c3d', sha256: '0'.repeat(64) });
}

export function checkPositions(
  positions: MarkerPositions,
  filming: Partial<Filming> = {},
  session: Session = emptySession,
): Report {
  return checkBytes(writeC3d(stillContents(positions, filming)), session, filming.set ?? wands22);
}

export function sessionWith(facts: Partial<PatientFacts>, rest: Partial<Session> = {}): Session {
  return { ...emptySession, ...rest, facts: { ...emptySession.facts, ...facts } };
}

export function failing(report: Report): string[] {
  return report.rules.filter(({ status }) => status === 'fail').map(({ id }) => id);
}

export function ruleValue(report: Report, rule: string): number {
  const value = report.rules.find(({ id }) => id === rule)?.value;
  if (value === undefined || value === null) throw new RangeError(`No value for ${rule}.`);
  return value;
}
