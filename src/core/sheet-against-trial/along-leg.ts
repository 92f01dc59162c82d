import { distance } from '../rule-kinds/positions.ts';
import { type ComparisonKindReader, standsOffMm } from './comparison-kind.ts';

/** Length of a leg from the ASIS over the knee to the ankle, so that a knee that does not straighten costs nothing. */
export const alongLeg: ComparisonKindReader = ({ markers, coverShare, tissueMm }, body) => {
  const [asis, knee, ankle] = markers.map((label) => body.geometry.lookup.point(label)) as [number, number, number];
  const coverMm = (standsOffMm(body, markers[0]!) + standsOffMm(body, markers[2]!)) * coverShare;
  return (positions) => distance(positions, asis, knee) + distance(positions, knee, ankle) - coverMm - tissueMm;
};
