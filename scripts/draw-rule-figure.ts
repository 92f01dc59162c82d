import type { Vec3 } from '../src/core/geometry/vector.ts';
import { figureBones, figureMarkers } from './figure-person.ts';
import { fixed, type RulePage } from './read-rule-page.ts';

/** Right and down on the page, mm. */
type Flat = readonly [number, number];
type Look = 'side' | 'front' | 'back' | 'above';

/** From where each kind's example is looked at; its rule says so in words (`seen`). */
const looks: Readonly<Record<string, Look>> = {
  'angle-in-range': 'above',
  'distance-in-range': 'side',
  'lengths-alike': 'front',
  'line-parallel-to-floor': 'side',
  'line-square-to-axis': 'side',
  'order-along-axis': 'side',
  'pair-level': 'front',
  'pair-mirrored': 'above',
  'point-in-line': 'side',
  'point-on-midline': 'back',
};
const says: Readonly<Record<Look, string>> = {
  side: "seen from the patient's right",
  front: 'seen from the front',
  back: 'seen from behind',
  above: 'seen from above, forward is up',
};

const inset = { left: 12, top: 12, width: 130, height: 316 };
const main = { left: 166, top: 12, width: 442, height: 316 };
const page = { width: 620, height: 378 };
const leastMarginMm = 35;

interface Frame {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** A page's example on a standing person, as SVG text: the same example gives the same bytes. */
export function drawRuleFigure(example: RulePage): string {
  const look = looks[example.kind]!;
  const { geometry } = example.description;
  const flat = projection(look, geometry.planes[0]?.view);
  const person = new Map([...figureMarkers, ...example.points]);
  const involved = [...example.points.values(), ...geometry.lines.flatMap(({ from, to }) => [from, to])].map(flat);
  const whole = boxOf([...person.values()].map(flat), 40);
  const part = boxOf(involved, Math.max(leastMarginMm, 0.12 * spanOf(involved)));
  const toInset = scaleInto(whole, inset);
  const toMain = scaleInto(part, main);
  const zoomed = inverseBox(main, toMain);

  const body = (to: (at: Flat) => Flat): string[] =>
    figureBones.map(([a, b]) => line(to(flat(person.get(a)!)), to(flat(person.get(b)!)), 'bone'));
  const dots = (to: (at: Flat) => Flat, radius: number): string[] =>
    [...person.entries()]
      .filter(([label]) => !example.points.has(label))
      .map(([, at]) => circle(to(flat(at)), radius, 'other'));
  const floor = (to: (at: Flat) => Flat, across: readonly [number, number]): string[] =>
    look === 'above' ? [] : [line(to([across[0], 0]), to([across[1], 0]), 'floor')];

  const { value } = example.description;
  const unit = { mm: ' mm', deg: '°', ratio: '' }[example.rule.unit];
  const number = example.rule.unit === 'ratio' ? value.toFixed(2) : fixed(value);
  const caption = `${example.rule.title}: ${number}${unit}`;
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${page.width} ${page.height}" role="img">`,
    `<title>${escapeXml(`${caption}, ${says[look]}`)}</title>`,
    style,
    clip('whole', inset),
    clip('part', main),
    `<rect width="${page.width}" height="${page.height}" class="paper"/>`,
    '<g clip-path="url(#whole)">',
    ...floor(toInset, [-5000, 5000]),
    ...body(toInset),
    ...dots(toInset, 1.5),
    box(toInset([zoomed.left, zoomed.top]), toInset([zoomed.right, zoomed.bottom])),
    '</g>',
    '<g clip-path="url(#part)">',
    ...floor(toMain, [-5000, 5000]),
    ...body(toMain),
    ...dots(toMain, 4),
    ...geometry.planes.flatMap(({ at, along }) => plane(at, along, flat, toMain)),
    ...geometry.lines.map(({ from, to }) => line(toMain(flat(from)), toMain(flat(to)), 'rule')),
    ...[...example.points.values()].map((at) => circle(toMain(flat(at)), 5, 'point')),
    '</g>',
    ...labels([...example.points].map(([label, at]) => [label, toMain(flat(at))])),
    frame(inset),
    frame(main),
    `<text x="${page.width / 2}" y="${page.height - 26}" class="caption">${escapeXml(caption)}</text>`,
    `<text x="${page.width / 2}" y="${page.height - 8}" class="caption">${says[look]}</text>`,
    '</svg>',
  ].join('\n')}\n`;
}

/** Looking from the side means along the rule's own direction of view where it has one, else from straight outside. */
function projection(look: Look, view: readonly number[] | undefined): (at: readonly number[]) => Flat {
  switch (look) {
    case 'above':
      return (at) => [-at[1]!, -at[0]!];
    case 'front':
      return (at) => [at[1]!, -at[2]!];
    case 'back':
      return (at) => [-at[1]!, -at[2]!];
    case 'side': {
      // The view points outward, to who looks; what is forward lies to their right.
      const [forward, left] = view === undefined || Math.abs(view[1]!) < 0.5 ? [0, -1] : [view[0]!, view[1]!];
      const size = Math.hypot(forward!, left!);
      const right: Vec3 = [-left! / size, forward! / size, 0];
      return (at) => [at[0]! * right[0] + at[1]! * right[1], -at[2]!];
    }
  }
}

function spanOf(points: readonly Flat[]): number {
  const { left, right, top, bottom } = boxOf(points, 0);
  return Math.max(right - left, bottom - top);
}

function boxOf(points: readonly Flat[], margin: number): { left: number; right: number; top: number; bottom: number } {
  const across = points.map(([x]) => x);
  const down = points.map(([, y]) => y);
  return {
    left: Math.min(...across) - margin,
    right: Math.max(...across) + margin,
    top: Math.min(...down) - margin,
    bottom: Math.max(...down) + margin,
  };
}

/** From mm to the page: as large as the frame allows, in its middle. */
function scaleInto(area: ReturnType<typeof boxOf>, into: Frame): ((at: Flat) => Flat) & { scale: number; at: Flat } {
  const scale = Math.min(into.width / (area.right - area.left), into.height / (area.bottom - area.top));
  const at: Flat = [
    into.left + into.width / 2 - (scale * (area.left + area.right)) / 2,
    into.top + into.height / 2 - (scale * (area.top + area.bottom)) / 2,
  ];
  return Object.assign(([x, y]: Flat): Flat => [at[0] + scale * x, at[1] + scale * y], { scale, at });
}

function inverseBox(from: Frame, to: ReturnType<typeof scaleInto>): ReturnType<typeof boxOf> {
  return {
    left: (from.left - to.at[0]) / to.scale,
    right: (from.left + from.width - to.at[0]) / to.scale,
    top: (from.top - to.at[1]) / to.scale,
    bottom: (from.top + from.height - to.at[1]) / to.scale,
  };
}

/** A plane seen edge-on, as far as the page goes; nothing where one does not look along it. */
function plane(
  at: readonly number[],
  along: readonly number[],
  flat: (at: readonly number[]) => Flat,
  to: (at: Flat) => Flat,
): string[] {
  const [x, y] = flat(along);
  const size = Math.hypot(x, y);
  if (size < 1e-9) return [];
  const [x0, y0] = flat(at);
  const end = (sign: number): Flat => to([x0 + (sign * 5000 * x) / size, y0 + (sign * 5000 * y) / size]);
  return [line(end(-1), end(1), 'plane')];
}

/** Beside the points, and below each other where they would meet. */
function labels(points: readonly (readonly [string, Flat])[]): string[] {
  const placed: Flat[] = [];
  return [...points]
    .sort(([, [, a]], [, [, b]]) => a - b)
    .map(([label, [x, y]]) => {
      const toTheLeft = x > main.left + main.width - 90;
      let down = y + 4;
      while (placed.some(([px, py]) => Math.abs(px - x) < 75 && Math.abs(py - down) < 14)) down += 3;
      placed.push([x, down]);
      const anchor = toTheLeft ? ' text-anchor="end"' : '';
      return `<text x="${round(x + (toTheLeft ? -9 : 9))}" y="${round(down)}"${anchor}>${escapeXml(label)}</text>`;
    });
}

const style = `<style>
.paper { fill: #ffffff; }
.bone { stroke: #c9cdd2; stroke-width: 3; stroke-linecap: round; }
.floor { stroke: #8a8f96; stroke-width: 1; }
.other { fill: #c9cdd2; }
.rule { stroke: #1d6b45; stroke-width: 2.5; }
.plane { stroke: #1d6b45; stroke-width: 1.2; stroke-dasharray: 6 5; }
.point { fill: #20242a; }
.frame { fill: none; stroke: #8a8f96; stroke-width: 1; }
.zoom { fill: none; stroke: #20242a; stroke-width: 1; }
text { font: 13px sans-serif; fill: #20242a; stroke: #ffffff; stroke-width: 4; paint-order: stroke; }
.caption { text-anchor: middle; }
</style>`;

function line(from: Flat, to: Flat, kind: string): string {
  return `<line x1="${round(from[0])}" y1="${round(from[1])}" x2="${round(to[0])}" y2="${round(to[1])}" class="${kind}"/>`;
}

function circle(at: Flat, radius: number, kind: string): string {
  return `<circle cx="${round(at[0])}" cy="${round(at[1])}" r="${radius}" class="${kind}"/>`;
}

function box(from: Flat, to: Flat): string {
  return `<rect x="${round(from[0])}" y="${round(from[1])}" width="${round(to[0] - from[0])}" height="${round(to[1] - from[1])}" class="zoom"/>`;
}

function frame({ left, top, width, height }: Frame): string {
  return `<rect x="${left}" y="${top}" width="${width}" height="${height}" class="frame"/>`;
}

function clip(id: string, { left, top, width, height }: Frame): string {
  return `<clipPath id="${id}"><rect x="${left}" y="${top}" width="${width}" height="${height}"/></clipPath>`;
}

function round(number: number): number {
  return Math.round(number * 10) / 10 + 0;
}

function escapeXml(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('"', '&quot;');
}
