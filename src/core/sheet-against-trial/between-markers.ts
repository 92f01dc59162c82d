import { distance } from '../rule-kinds/positions.ts';
import { type ComparisonKindReader, standsOffMm } from './comparison-kind.ts';

/** A width between two markers: their distance, less what their radii, base plates and the tissue below them add. */
export const betweenMarkers: ComparisonKindReader = ({ markers, coverShare, tissueMm }, body) => {
  const [one, other] = markers.map((label) => body.geometry.lookup.point(label)) as [number, number];
  const coverMm = markers.reduce((sum, label) => sum + standsOffMm(body, label), 0) * coverShare;
  return (positions) => distance(positions, one, other) - coverMm - tissueMm;
};
