import type { MarkerSet } from '../marker-set/marker-set.ts';

type Place = readonly [number, number, number];

interface View {
  readonly title: string;
  /** Right on the page, from forward, left, up. */
  readonly across: (at: Place) => number;
  readonly shows: (label: string) => boolean;
}

/** Seen from the front, the patient's right is on the left of the page; from the patient's right, forward is to the right. */
const views: readonly View[] = [
  { title: 'From the front', across: ([, left]) => left, shows: () => true },
  { title: "From the patient's right", across: ([forward]) => forward, shows: (label) => !label.startsWith('L_') },
];

/** Strokes of the grey figure, by label without the side. */
const bones: readonly (readonly [string, string])[] = [
  ['C7', 'ACR'],
  ['C7', 'S1'],
  ['ASIS', 'S1'],
  ['ASIS', 'GT'],
  ['GT', 'LE'],
  ['LE', 'LM'],
  ['LM', 'HEEL'],
  ['HEEL', 'MET5'],
  ['MET5', 'LM'],
];

const mmPerUnit = 2;
const margin = 40;
const viewWidth = 380;
const height = 1520 / mmPerUnit + 2 * margin;

/**
 * The markers of a set on a standing adult, as SVG text: from the front and from the patient's right. Filled: required;
 * ring: optional. Markers that the adult has no place for are listed below.
 * @param adult place of each label: forward, left, up; mm
 */
export function drawMarkerSet(set: MarkerSet, adult: ReadonlyMap<string, Place>): string {
  const strange = set.markers.filter(({ label }) => !adult.has(label)).map(({ label }) => label);
  const below = strange.length === 0 ? [] : [text(margin, height + 16, `Not drawn: ${strange.join(', ')}`, 'note')];
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${views.length * viewWidth} ${height + 28}" role="img" aria-labelledby="title">`,
    `<title id="title">${escaped(`Markers of ${set.name} on a standing adult`)}</title>`,
    '<style>text{font:11px sans-serif;fill:#1d2733}.head{font-size:15px;font-weight:600}.note{font-size:13px}line{stroke:#b9c0c8;stroke-width:5;stroke-linecap:round}circle{stroke:#1d2733;stroke-width:1.5;fill:#fff}.required{fill:#1d2733}</style>',
    ...views.flatMap((view, index) => drawView(set, adult, view, index * viewWidth)),
    ...below,
    '</svg>\n',
  ].join('\n');
}

function drawView(set: MarkerSet, adult: ReadonlyMap<string, Place>, view: View, left: number): string[] {
  const x = (at: Place): number =>
    Math.round(left + viewWidth / 2 + view.across(at) / mmPerUnit + (view.across([0, 1, 0]) ? 0 : 45));
  const y = (at: Place): number => Math.round(height - margin - at[2] / mmPerUnit);
  const strokes = bones.flatMap(([from, to]) =>
    ['R_', 'L_'].flatMap((side) => {
      const [a, b] = [from, to].map((stem) =>
        [side + stem, stem].find((label) => adult.has(label) && view.shows(label)),
      );
      if (a === undefined || b === undefined) return [];
      const [p, q] = [adult.get(a)!, adult.get(b)!];
      return [`<line x1="${x(p)}" y1="${y(p)}" x2="${x(q)}" y2="${y(q)}"/>`];
    }),
  );
  const markers = set.markers.filter(({ label }) => adult.has(label) && view.shows(label));
  return [
    text(left + margin, 22, view.title, 'head'),
    ...new Set(strokes),
    ...markers.map(({ label, presence }) => {
      const at = adult.get(label)!;
      return `<circle cx="${x(at)}" cy="${y(at)}" r="5"${presence === 'required' ? ' class="required"' : ''}/>`;
    }),
    ...besides(
      markers.map(({ label }) => {
        const at = adult.get(label)!;
        // Names stand outside the figure, where that leaves room: to the left of what lies left of the middle.
        const isLeft = x(at) < left + viewWidth / 2;
        return { label, x: x(at) + (isLeft ? -9 : 9), y: y(at), anchor: isLeft ? 'end' : 'start' };
      }),
    ).map((one) => text(one.x, one.y + 4, one.label, '', one.anchor)),
  ];
}

/** Names that would lie on each other stand below each other. */
function besides<T extends { x: number; y: number; anchor: string }>(names: readonly T[]): T[] {
  const set: T[] = [];
  for (const name of names.toSorted((a, b) => a.y - b.y)) {
    let { y } = name;
    while (
      set.some((other) => Math.abs(other.y - y) < 11 && other.anchor === name.anchor && Math.abs(other.x - name.x) < 46)
    )
      y += 1;
    set.push({ ...name, y });
  }
  return set;
}

function text(x: number, y: number, content: string, className: string, anchor = 'start'): string {
  const at = `x="${x}" y="${y}"${anchor === 'start' ? '' : ` text-anchor="${anchor}"`}`;
  return `<text ${at}${className === '' ? '' : ` class="${className}"`}>${escaped(content)}</text>`;
}

function escaped(content: string): string {
  return content.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;').replaceAll('"', '&quot;');
}
