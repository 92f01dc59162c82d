import { type Flat, svgNumber } from './views.ts';

/** A thick arrow from one place to another, its head ending there. Picture units. */
export function Arrow({ from, to, thick }: { readonly from: Flat; readonly to: Flat; readonly thick: number }) {
  const across = [to[0] - from[0], to[1] - from[1]] as const;
  const length = Math.hypot(...across) || 1;
  const along = [across[0] / length, across[1] / length] as const;
  const head = Math.min(length * 0.75, thick * 2.4);
  const wide = thick * 1.55;
  const neck: Flat = [to[0] - along[0] * head, to[1] - along[1] * head];
  const beside = (at: Flat, by: number): string =>
    `${svgNumber(at[0] - along[1] * by)} ${svgNumber(at[1] + along[0] * by)}`;
  const half = thick / 2;
  const path = [
    `M${beside(from, half)}`,
    beside(neck, half),
    beside(neck, wide),
    `${svgNumber(to[0])} ${svgNumber(to[1])}`,
    beside(neck, -wide),
    beside(neck, -half),
    `${beside(from, -half)}Z`,
  ].join('L');
  return <path class="arrow" d={path} />;
}
