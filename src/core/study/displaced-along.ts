import type { StandingBody } from '../pose/standing-body.ts';
import type { PlacementDirection } from './placement-values.ts';

/** Lab positions of the markers, with one of them moved along a direction of its segment; mm. */
export function displacedAlong(
  body: StandingBody,
  marker: string,
  segment: string,
  direction: PlacementDirection,
  mm: number,
): Float64Array {
  const index = body.set.markers.findIndex(({ label }) => label === marker);
  const { side } = body.set.segments.find(({ name }) => name === segment)!;
  const slot = body.geometry.lookup.axis(segment, direction === 'left' ? 'outward' : direction, side);
  // Outward on a segment of the middle is to the left.
  const way = direction === 'outward' && side === 'midline' && body.set.markers[index]!.side === 'right' ? -1 : 1;
  const { forward, left, up } = body.geometry.axes(body.lab);
  const [f, l, u] = [body.positions[slot]!, body.positions[slot + 1]!, body.positions[slot + 2]!];
  const lab = body.lab.slice();
  for (let i = 0; i < 3; i++) lab[index * 3 + i]! += way * mm * (f * forward[i]! + l * left[i]! + u * up[i]!);
  return lab;
}
