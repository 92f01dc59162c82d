import { type Direction, sizesMm } from '../tests/accuracy/faults.ts';
import { hands } from '../tests/accuracy/hands.ts';
import { interval, percent } from '../tests/accuracy/shares.ts';
import type { Row, Summary } from '../tests/accuracy/summary.ts';
import { sayDirection } from './accuracy-page.ts';

/** The pictures of docs/accuracy.md as SVG text, by file name; each says in its title and description what it shows. */
export function accuracyPictures(summary: Summary, directions: readonly Direction[]): Record<string, string> {
  return {
    'accuracy-detection.svg': drawDetection(summary),
    'accuracy-calibration.svg': drawCalibration(summary),
    'accuracy-directions.svg': drawDirections(summary, directions),
  };
}

const style = `<style>
.paper { fill: #ffffff; }
.grid { stroke: #d9dce0; stroke-width: 1; }
.axis { stroke: #8a8f96; stroke-width: 1; }
.tool { stroke: #1d6b45; stroke-width: 2.5; fill: none; }
.oracle { stroke: #20242a; stroke-width: 1.5; stroke-dasharray: 6 5; fill: none; }
.dot { fill: #1d6b45; }
.range { stroke: #1d6b45; stroke-width: 1.5; }
.band { fill: #e8f0ec; }
.cell { fill: #1d6b45; }
.frame { fill: none; stroke: #20242a; stroke-width: 1.5; }
text { font: 13px sans-serif; fill: #20242a; }
.middle { text-anchor: middle; }
.end { text-anchor: end; }
</style>`;

function picture(width: number, height: number, title: string, says: string, parts: readonly string[]): string {
  return `${[
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" role="img" aria-labelledby="title says">`,
    `<title id="title">${title}</title>`,
    `<desc id="says">${says}</desc>`,
    style,
    `<rect width="${width}" height="${height}" class="paper"/>`,
    ...parts,
    '</svg>',
  ].join('\n')}\n`;
}

/** Share of single faults that is flagged and named first, by size: the tool and the oracle, one panel for each hand. */
function drawDetection({ rows }: Summary): string {
  const panel = { width: 216, height: 170, left: 52, top: 40, gap: 30, below: 62 };
  const measures = [
    { name: 'flagged', tool: (row: Row) => row.flagged, oracle: (row: Row) => row.oracleFlagged },
    { name: 'named first', tool: (row: Row) => row.first, oracle: (row: Row) => row.oracleFirst },
  ];
  const parts = measures.flatMap(({ name, tool, oracle }, down) =>
    hands.flatMap((hand, across) => {
      const left = panel.left + across * (panel.width + panel.gap);
      const top = panel.top + down * (panel.height + panel.below);
      const x = (mm: number): number => left + 12 + ((mm - 10) / 30) * (panel.width - 24);
      const y = (value: number): number => top + panel.height - (value / 100) * panel.height;
      const own = rows.filter((row) => row.hand === across);
      const curve = (kind: string, of: (row: Row) => { k: number; n: number }): string =>
        `<polyline class="${kind}" points="${own.map((row) => `${round(x(row.sizeMm))},${round(y(percent(of(row))))}`).join(' ')}"/>`;
      return [
        ...[0, 25, 50, 75, 100].flatMap((value) => [
          line(left, y(value), left + panel.width, y(value), value === 0 ? 'axis' : 'grid'),
          ...(across === 0 ? [text(left - 6, y(value) + 4, `${value} %`, 'end')] : []),
        ]),
        ...sizesMm.map((mm) => text(x(mm), top + panel.height + 17, String(mm), 'middle')),
        curve('oracle', oracle),
        curve('tool', tool),
        ...own.flatMap((row) => [
          verticalRange(x(row.sizeMm), interval(tool(row)).map(y)),
          circle(x(row.sizeMm), y(percent(tool(row))), 3),
        ]),
        text(left + panel.width / 2, top - 10, `${name}, ${hand.name}`, 'middle'),
      ];
    }),
  );
  const width = panel.left + 3 * (panel.width + panel.gap);
  const height = panel.top + 2 * (panel.height + panel.below);
  const foot = [
    text(width / 2, height - 24, 'size of the fault, mm; bars are 95 % intervals', 'middle'),
    line(width / 2 - 170, height - 10, width / 2 - 140, height - 10, 'tool'),
    text(width / 2 - 134, height - 6, 'setsquare', ''),
    line(width / 2 - 20, height - 10, width / 2 + 10, height - 10, 'oracle'),
    text(width / 2 + 16, height - 6, 'the oracle, who knows the people', ''),
  ];
  return picture(
    width,
    height,
    'Faults flagged and named first, by size of the fault',
    'For three kinds of hand: the share of people with one marker off who are flagged, and whose marker is named first, as setsquare does it and as an oracle would. The figures are in the table "Everybody".',
    [...parts, ...foot],
  );
}

/** What was said against what came true. */
function drawCalibration({ bins }: Summary): string {
  const [left, top, size] = [64, 16, 330];
  const x = (value: number): number => left + (value / 100) * size;
  const y = (value: number): number => top + size - (value / 100) * size;
  const band = [
    [0, 5],
    [95, 100],
    [100, 100],
    [100, 95],
    [5, 0],
    [0, 0],
  ].map(([said, right]) => `${round(x(said!))},${round(y(right!))}`);
  return picture(
    left + size + 26,
    top + size + 58,
    'Probability said against how often it was right',
    'Each dot is a tenth of the scale with at least 200 first steps; in the shaded band what was said and what came true differ by less than 5 points. The figures are in the table "What the probability is worth".',
    [
      `<polygon class="band" points="${band.join(' ')}"/>`,
      ...[0, 25, 50, 75, 100].flatMap((value) => [
        line(x(0), y(value), x(100), y(value), value === 0 ? 'axis' : 'grid'),
        line(x(value), y(0), x(value), y(100), value === 0 ? 'axis' : 'grid'),
        text(left - 6, y(value) + 4, `${value} %`, 'end'),
        text(x(value), top + size + 18, `${value} %`, 'middle'),
      ]),
      ...bins.flatMap(({ meanSaid, right }) => [
        verticalRange(x(100 * meanSaid), interval(right).map(y)),
        circle(x(100 * meanSaid), y(percent(right)), 4),
      ]),
      text(left + size / 2, top + size + 42, 'said', 'middle'),
      `<text x="16" y="${top + size / 2}" class="middle" transform="rotate(-90 16 ${top + size / 2})">right marker and way</text>`,
    ],
  );
}

/** Shade of a cell in which everybody is flagged: dark letters stay legible on it. */
const deepest = 0.45;

/** Flagged share of every direction and size for the first hand; framed where the oracle sees and names it. */
function drawDirections({ cells }: Summary, directions: readonly Direction[]): string {
  const cell = { width: 44, height: 18, left: 158, top: 44 };
  const half = Math.ceil(directions.length / 2);
  const block = cell.left + sizesMm.length * cell.width + 24;
  const parts = directions.flatMap((direction, index) => {
    const across = index < half ? 0 : 1;
    const left = across * block + cell.left;
    const top = cell.top + (index - across * half) * cell.height;
    return [
      text(left - 8, top + 14, sayDirection(direction), 'end'),
      ...cells
        .filter((one) => one.direction === index)
        .flatMap((one) => {
          const x = left + sizesMm.indexOf(one.sizeMm as (typeof sizesMm)[number]) * cell.width;
          const share = percent(one.flagged);
          return [
            `<rect x="${x}" y="${top}" width="${cell.width}" height="${cell.height}" class="cell" fill-opacity="${((deepest * share) / 100).toFixed(2)}"/>`,
            text(x + cell.width / 2, top + 14, share.toFixed(0), 'middle'),
            ...(one.visible && one.nameable
              ? [
                  `<rect x="${x + 1}" y="${top + 1}" width="${cell.width - 2}" height="${cell.height - 2}" class="frame"/>`,
                ]
              : []),
          ];
        }),
    ];
  });
  const heads = [0, 1].flatMap((across) =>
    sizesMm.map((mm, at) =>
      text(across * block + cell.left + (at + 0.5) * cell.width, cell.top - 8, String(mm), 'middle'),
    ),
  );
  const width = 2 * block;
  const height = cell.top + half * cell.height + 34;
  return picture(
    width,
    height,
    `Share of faults flagged, per cent, by direction and size, hand scatter ${hands[0]!.name}`,
    'One row for each way a marker can be off, one column for each size in mm; the number is the share flagged. Framed: the oracle flags 95 % and names 90 % first.',
    [
      text(12, 18, 'flagged, per cent, by size of the fault in mm; framed where the oracle sees and names it', ''),
      ...heads,
      ...parts,
    ],
  );
}

function line(x1: number, y1: number, x2: number, y2: number, kind: string): string {
  return `<line x1="${round(x1)}" y1="${round(y1)}" x2="${round(x2)}" y2="${round(y2)}" class="${kind}"/>`;
}

function verticalRange(x: number, [low, high]: readonly number[]): string {
  return line(x, low!, x, high!, 'range');
}

function circle(x: number, y: number, radius: number): string {
  return `<circle cx="${round(x)}" cy="${round(y)}" r="${radius}" class="dot"/>`;
}

function text(x: number, y: number, says: string, kind: string): string {
  return `<text x="${round(x)}" y="${round(y)}"${kind === '' ? '' : ` class="${kind}"`}>${says}</text>`;
}

function round(value: number): number {
  return Number(value.toFixed(1));
}
