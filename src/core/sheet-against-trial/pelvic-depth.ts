import { add, dot, scale, subtract } from '../geometry/vector.ts';
import { pelvisFrame } from '../pose/pelvis-frame.ts';
import { at } from '../rule-kinds/positions.ts';
import { type ComparisonKindReader, standsOffMm } from './comparison-kind.ts';

/**
 * Tilt of the pelvis in which the conventional hip regression takes the depth from ASIS to trochanter: its axes stand 18
 * degrees (SD 4) forward of the plane of ASIS and PSIS (Davis et al. 1991, Hum Mov Sci 10:575-587, with its erratum).
 */
const attitudeDeg = 18;

/**
 * Depth from the ASIS back to the greater trochanter, as it is measured on a patient who lies on the back: not along the
 * laboratory's horizontal, which turns against the pelvis with every tilt, but in the attitude of the regression.
 */
export const pelvicDepth: ComparisonKindReader = ({ markers, coverShare, tissueMm }, body) => {
  const hip = body.set.virtualPoints.find((point) => point.construct === 'hip-centre');
  if (hip?.construct !== 'hip-centre') return { reason: 'the marker set does not say which markers give the pelvis' };
  const { lookup } = body.geometry;
  const [right, left, back] = [hip.rightAsis, hip.leftAsis, hip.pelvisBack].map((name) => lookup.point(name)) as [
    number,
    number,
    number,
  ];
  const [asis, trochanter] = markers.map((label) => lookup.point(label)) as [number, number];
  const coverMm = standsOffMm(body, markers[0]!) * coverShare;
  const cos = Math.cos((attitudeDeg * Math.PI) / 180);
  const sin = Math.sin((attitudeDeg * Math.PI) / 180);
  return (positions) => {
    const pelvis = pelvisFrame(at(positions, right), at(positions, left), at(positions, back));
    if (pelvis === null) return Number.NaN;
    const front = add(scale(pelvis.forward, cos), scale(pelvis.up, sin));
    return dot(subtract(at(positions, asis), at(positions, trochanter)), front) - coverMm - tissueMm;
  };
};
