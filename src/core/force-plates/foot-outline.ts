import { direction, dot, length, squareTo, subtract, type Vec3 } from '../geometry/vector.ts';

/** The two markers that give a foot its line; lab axes, mm. */
export interface FootMarkers {
  readonly side: 'right' | 'left';
  readonly heel: Vec3;
  readonly forefoot: Vec3;
}

/**
 * How far a foot reaches beyond its markers, as shares of the distance from heel to forefoot marker: toes in front of
 * the metatarsal heads, and to either side of the line, since it may run along the outer edge or the middle. A foot is
 * about .38 of its length broad (ANSUR II 2012) and 1.35 of that distance long (from memory).
 */
const reach = { front: 0.4, side: 0.45 } as const;

/**
 * How far a point on the floor lies outside the foot that its markers outline, mm; 0 inside. Nothing presses through a
 * place where no foot is, so a centre of pressure outside says that plate and cameras do not agree.
 */
export function outsideFootMm(point: Vec3, { heel, forefoot }: FootMarkers, up: Vec3): number | null {
  const line = squareTo(subtract(forefoot, heel), up);
  const along = direction(line);
  if (along === null) return null;
  const size = length(line);
  const from = squareTo(subtract(point, heel), up);
  const forward = dot(from, along);
  const beside = length(squareTo(from, along));
  const beyond = Math.max(0, -forward, forward - size * (1 + reach.front));
  return Math.hypot(beyond, Math.max(0, beside - size * reach.side));
}
