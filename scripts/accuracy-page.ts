import { type Direction, sizesMm } from '../tests/accuracy/faults.ts';
import { hands } from '../tests/accuracy/hands.ts';
import { patientFaultMm, patientHand } from '../tests/accuracy/measure-part.ts';
import { patientKinds } from '../tests/accuracy/patients.ts';
import { interval, percent, type Share } from '../tests/accuracy/shares.ts';
import type { DirectionCell, Summary } from '../tests/accuracy/summary.ts';

export interface RunSize {
  readonly seed: number;
  readonly populations: number;
  readonly people: number;
  /** For each hand. */
  readonly perDirection: readonly number[];
  readonly forOracle: number;
  /** First digits of their hashes. */
  readonly markerSet: string;
  readonly norms: string;
}

export interface Measured {
  readonly run: RunSize;
  readonly summary: Summary;
}

/** Everything the run found, as the tables of docs/accuracy.md: the same figures give the same text. */
export function accuracyPage({ run, summary }: Measured, directions: readonly Direction[]): string {
  return [
    `Seed ${run.seed}; ${run.populations} populations for each hand, ${run.populations * run.people} people in each row of the second table and ${run.perDirection.map((each) => run.populations * each).join(', ')} for each direction and size; the oracle knows each population from ${run.forOracle} others of its people. Marker set lower-limb-wands-22 (hash ${run.markerSet}), norms ${run.norms}. In brackets: 95 % intervals (Wilson).`,
    '### The aims',
    ...aims(summary),
    '### Everybody: 60 % well marked, 30 % one marker off, 8 % two, 2 % exchanged labels',
    ...everybody(summary),
    '### One marker off, evenly over all markers and ways',
    ...kinds(summary),
    '### What fails on well-marked people',
    ...failing(summary),
    '### What the probability is worth',
    ...calibration(summary),
    '### Patients',
    ...patients(summary),
    `### Every direction, ${gridSizeMm} mm, hand scatter ${hands[0]!.name}`,
    ...everyDirection(summary, directions),
  ].join('\n\n');
}

const gridSizeMm = 20;

function aims(summary: Summary): string[] {
  const { rows, falseAlarms, sure, bins } = summary;
  const list: [string, string, boolean][] = falseAlarms.map((share, hand) => [
    `False alarms at most 5 % of well-marked people, ${hands[hand]!.name}`,
    withInterval(share),
    percent(share) <= 5,
  ]);
  for (const [hand, { name }] of hands.entries()) {
    const own = rows.filter((row) => row.hand === hand);
    const behind = worst(own.map((row) => percent(row.oracleFlagged) - percent(row.flagged)));
    const unnamed = worst(own.map((row) => percent(row.oracleFirst) - percent(row.first)));
    list.push([
      `One marker off is flagged within 3 points of the oracle at every size, ${name}`,
      behindBy(behind, own[behind.at]!.sizeMm),
      behind.value <= 3,
    ]);
    list.push([
      `The right marker is named first within 5 points of the oracle at every size, ${name}`,
      behindBy(unnamed, own[unnamed.at]!.sizeMm),
      unnamed.value <= 5,
    ]);
  }
  if (sure.flagged.n > 0) {
    const where = `visible and nameable directions, from 20 mm, ${hands[0]!.name}`;
    list.push([`At least 95 % flagged: ${where}`, withInterval(sure.flagged), percent(sure.flagged) >= 95]);
    list.push([`At least 90 % named first: ${where}`, withInterval(sure.first), percent(sure.first) >= 90]);
    list.push([`Of those, at least 99 % the right way`, withInterval(sure.rightWay), percent(sure.rightWay) >= 99]);
    list.push([
      'Of those, median error of the distance under 4 mm',
      millimetres(sure.errorMm),
      sure.errorMm !== null && sure.errorMm < 4,
    ]);
  }
  const off = worst(bins.map(({ meanSaid, right }) => Math.abs(100 * meanSaid - percent(right))));
  list.push([
    'Probabilities within 5 points of what came true, in every bin of 200 or more',
    `furthest off: ${off.value.toFixed(0)} points, at a mean of ${(100 * bins[off.at]!.meanSaid).toFixed(0)} %`,
    off.value <= 5,
  ]);
  return table(
    ['aim', 'found', 'met'],
    list.map(([aim, found, met]) => [aim, found, met ? 'yes' : '**no**']),
  );
}

function everybody({ rows }: Summary): string[] {
  return table(
    [
      'hand scatter',
      'faults of',
      'well marked: false alarms',
      'one off: flagged',
      'the oracle',
      'named first',
      'the oracle',
      'two off: flagged',
      'one of them first',
      'exchanged: flagged',
      'named',
    ],
    rows.map((row) => [
      hands[row.hand]!.name,
      `${row.sizeMm} mm`,
      withInterval(row.falseAlarms),
      withInterval(row.flagged),
      plain(row.oracleFlagged),
      withInterval(row.first),
      plain(row.oracleFirst),
      plain(row.two.flagged),
      plain(row.two.first),
      plain(row.exchanged.flagged),
      plain(row.exchanged.first),
    ]),
  );
}

const hows = {
  'by-eye': 'set by eye',
  alone: 'palpated, by itself',
  followed: 'palpated, with those set on it',
} as const;

function kinds(summary: Summary): string[] {
  return table(
    ['hand scatter', 'off', 'by', 'flagged', 'named first', 'of those the right way', 'median error'],
    summary.kinds.map(({ hand, how, sizeMm, flagged, first, rightWay, medianErrorMm }) => [
      hands[hand]!.name,
      hows[how],
      `${sizeMm} mm`,
      withInterval(flagged),
      withInterval(first),
      rightWay.n === 0 ? '' : withInterval(rightWay),
      millimetres(medianErrorMm),
    ]),
  );
}

function failing(summary: Summary): string[] {
  const rules = [...new Set(summary.failing.flatMap((list) => list.slice(0, 6).map(({ rule }) => rule)))];
  return table(
    ['rule', ...hands.map(({ name }) => name)],
    rules.map((rule) => [
      `\`${rule}\``,
      ...summary.failing.map((list) => {
        const found = list.find((one) => one.rule === rule);
        return found === undefined ? '0 %' : `${percent(found.share).toFixed(1)} %`;
      }),
    ]),
  );
}

function calibration({ bins }: Summary): string[] {
  return table(
    ['probability said', 'first steps', 'mean said', 'right marker and way'],
    bins.map(({ from, meanSaid, right }) => [
      `${(100 * from).toFixed(0)} to ${(100 * from + 10).toFixed(0)} %`,
      String(right.n),
      `${(100 * meanSaid).toFixed(0)} %`,
      withInterval(right),
    ]),
  );
}

function patients(summary: Summary): string[] {
  return [
    `Marked with a scatter of ${hands[patientHand]!.name}; faults of ${patientFaultMm} mm, mixed as above.`,
    ...table(
      [
        'patient',
        'recorded',
        'well marked: told to do something',
        'to see to a marker or label',
        'one off: flagged',
        'named first',
      ],
      summary.patients.map(({ kind, recorded, flagged, marker, one }) => [
        patientKinds[kind]!.name,
        recorded ? patientKinds[kind]!.recordedAs : 'nothing',
        withInterval(flagged),
        withInterval(marker),
        plain(one.flagged),
        plain(one.first),
      ]),
    ),
  ];
}

function everyDirection(summary: Summary, directions: readonly Direction[]): string[] {
  const first = (direction: number, holds: (cell: DirectionCell) => boolean): string => {
    const sizes = sizesMm.filter((sizeMm) =>
      summary.cells.some((cell) => cell.direction === direction && cell.sizeMm === sizeMm && holds(cell)),
    );
    return sizes.length === 0 ? 'not' : `${sizes[0]} mm`;
  };
  return table(
    ['off', 'flagged', 'the oracle', 'named first', 'the oracle', 'visible from', 'nameable from'],
    directions.map((direction, index) => {
      const cell = summary.cells.find((one) => one.direction === index && one.sizeMm === gridSizeMm)!;
      return [
        sayDirection(direction),
        plain(cell.flagged),
        plain(cell.oracleFlagged),
        plain(cell.first),
        plain(cell.oracleFirst),
        first(index, ({ visible }) => visible),
        first(index, ({ nameable }) => nameable),
      ];
    }),
  );
}

export function sayDirection({ landmark, toward, before }: Direction): string {
  return `${landmark} ${toward}${before ? ', followed' : ''}`;
}

function table(heads: readonly string[], rows: readonly (readonly string[])[]): string[] {
  const line = (cells: readonly string[]): string => `| ${cells.join(' | ')} |`;
  return [[line(heads), line(heads.map(() => '---')), ...rows.map(line)].join('\n')];
}

function worst(values: readonly number[]): { value: number; at: number } {
  const value = Math.max(...values);
  return { value, at: values.indexOf(value) };
}

function behindBy({ value }: { value: number }, sizeMm: number): string {
  return value <= 0 ? 'never behind' : `at worst ${value.toFixed(0)} points behind, at ${sizeMm} mm`;
}

function withInterval(share: Share): string {
  if (share.n === 0) return '';
  const [low, high] = interval(share);
  return `${percent(share).toFixed(0)} % (${low.toFixed(0)} to ${high.toFixed(0)})`;
}

function plain(share: Share): string {
  return share.n === 0 ? '' : `${percent(share).toFixed(0)} %`;
}

function millimetres(value: number | null): string {
  return value === null ? '' : `${value.toFixed(1)} mm`;
}
