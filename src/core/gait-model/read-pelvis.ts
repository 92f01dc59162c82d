import { add, distance, midpoint, scale, type Vec3 } from '../geometry/vector.ts';
import type { MarkerSet, VirtualPointDefinition } from '../marker-set/marker-set.ts';
import { hipCentre } from '../pose/hip-centre.ts';
import { type PelvisFrame, pelvisFrame } from '../pose/pelvis-frame.ts';
import { outwardSign } from '../rule-kinds/positions.ts';
import { pointReader } from './point-reader.ts';

export type HipDefinition = Extract<VirtualPointDefinition, { construct: 'hip-centre' }>;

/** Pelvis axes and hip centre of one side, read from marker positions. */
export type ReadPelvis = (markers: Float64Array) => { frame: PelvisFrame; hip: Vec3 } | null;

/** The definition by which a set constructs a hip centre. */
export function hipDefinition(name: string, set: MarkerSet): HipDefinition {
  return set.virtualPoints.find((point) => point.name === name) as HipDefinition;
}

/**
 * @param legLengthMm for the regressions that ask for it, else null
 * @param asisTrochanterDepthMm the same
 * @returns a label that the standing trial lacks
 */
export function readPelvis(
  hip: HipDefinition,
  set: MarkerSet,
  standing: Float64Array,
  legLengthMm: number | null,
  asisTrochanterDepthMm: number | null,
): ReadPelvis | { readonly lacks: string } {
  const names = [hip.rightAsis, hip.leftAsis, hip.pelvisBack];
  const readers = names.map((name) => pointReader(name, set, standing));
  const missing = names.find((_, index) => readers[index] === null);
  if (missing !== undefined) return { lacks: missing };
  const [readRight, readLeft, readBack] = readers as NonNullable<(typeof readers)[number]>[];
  const markerRadiusMm = (set.markers.find(({ label }) => label === hip.rightAsis)?.diameterMm ?? 0) / 2;
  return (markers) => {
    const right = readRight!(markers);
    const left = readLeft!(markers);
    const back = readBack!(markers);
    if (right === null || left === null || back === null) return null;
    const frame = pelvisFrame(right, left, back);
    const middle = midpoint(right, left);
    const offset = hipCentre(hip.method, {
      pelvisWidthMm: distance(right, left),
      pelvisDepthMm: distance(middle, back),
      legLengthMm,
      asisTrochanterDepthMm,
      markerRadiusMm,
    });
    if (frame === null || offset === null) return null;
    const away = outwardSign(hip.side) * offset.outward;
    const sagittal = add(scale(frame.forward, offset.forward), scale(frame.up, offset.up));
    return { frame, hip: add(middle, add(sagittal, scale(frame.left, away))) };
  };
}
