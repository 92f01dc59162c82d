import { type Flat, svgNumber } from './views.ts';

/** Outline of a limb: two circles and the straight lines that touch both. Picture units. */
export function limbPath(from: Flat, fromRadius: number, to: Flat, toRadius: number): string {
  const across = [to[0] - from[0], to[1] - from[1]] as const;
  const length = Math.hypot(...across);
  if (length <= Math.abs(fromRadius - toRadius)) {
    return fromRadius > toRadius ? circlePath(from, fromRadius) : circlePath(to, toRadius);
  }
  const heading = Math.atan2(across[1], across[0]);
  const spread = Math.acos((fromRadius - toRadius) / length);
  const on = (centre: Flat, radius: number, angle: number): string =>
    `${svgNumber(centre[0] + radius * Math.cos(angle))} ${svgNumber(centre[1] + radius * Math.sin(angle))}`;
  const arc = (radius: number, isLarge: boolean): string =>
    `A${svgNumber(radius)} ${svgNumber(radius)} 0 ${isLarge ? 1 : 0} 1 `;
  return [
    `M${on(from, fromRadius, heading + spread)}`,
    `${arc(fromRadius, fromRadius > toRadius)}${on(from, fromRadius, heading - spread)}`,
    `L${on(to, toRadius, heading - spread)}`,
    `${arc(toRadius, toRadius >= fromRadius)}${on(to, toRadius, heading + spread)}Z`,
  ].join('');
}

export function circlePath([x, y]: Flat, radius: number): string {
  const r = svgNumber(radius);
  const left = `${svgNumber(x - radius)} ${svgNumber(y)}`;
  return `M${left}a${r} ${r} 0 1 0 ${svgNumber(2 * radius)} 0a${r} ${r} 0 1 0 ${svgNumber(-2 * radius)} 0Z`;
}

/** Smallest polygon around the points, as a closed path. */
export function hullPath(points: readonly Flat[]): string {
  const hull = convexHull(points);
  return `M${hull.map(([x, y]) => `${svgNumber(x)} ${svgNumber(y)}`).join('L')}Z`;
}

/** Andrew's monotone chain, counter-clockwise. */
export function convexHull(points: readonly Flat[]): Flat[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  if (sorted.length < 3) return sorted;
  const half = (ordered: readonly Flat[]): Flat[] => {
    const chain: Flat[] = [];
    for (const point of ordered) {
      while (chain.length >= 2 && turn(chain.at(-2)!, chain.at(-1)!, point) <= 0) chain.pop();
      chain.push(point);
    }
    return chain.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}

function turn(a: Flat, b: Flat, c: Flat): number {
  return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0]);
}
