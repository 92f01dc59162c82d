import { type TextOptions, TextPage } from '../report/text-page.ts';
import type { DisplacedHow } from './displacement.ts';
import { furthestMm } from './fails-from.ts';
import { blindFromMm, isBlind, type Visibility } from './find-blind-spots.ts';
import type { Opener } from './openers.ts';

export interface BlindSpotsHeading {
  readonly markerSet: string;
  /** What it was computed on: "the reference adult", or a trial's own name. */
  readonly on: string;
  readonly rules: number;
  readonly assessed: number;
  readonly norms: string | null;
}

const headings: Readonly<Record<DisplacedHow, string>> = {
  alone: 'One marker by itself',
  'with-followers': 'One landmark, with the markers that were set on it',
  'both-sides-alike': 'Both sides, the same way',
  'both-sides-opposite': 'Both sides, opposite ways (given for the right one)',
  'both-sides-with-followers': 'Both sides the same way, with the markers that were set on them',
};

/** What the checks of a set cannot see, and from what size on they see the rest. */
export function formatBlindSpots(
  heading: BlindSpotsHeading,
  spots: readonly Visibility[],
  options: TextOptions,
): string {
  const page = new TextPage(options);
  page.paragraph(`What the checks of ${heading.markerSet} see and what they do not`, { ink: 'bold' });
  page.blank();
  page.paragraph(
    `Computed on ${heading.on} by moving markers along the skin, up to ${furthestMm} mm. ${heading.assessed} of ${heading.rules} checks could be made.`,
  );
  page.paragraph(
    heading.norms === null
      ? 'No norms for this set: from what size on a marker would be named first is not known.'
      : `Named first: on nine in ten people, by norms ${heading.norms}, from simulated people.`,
  );
  const blind = withoutRepeats(together(spots.filter(isBlind)));
  page.heading(`Not seen by any check up to ${blindFromMm} mm`);
  if (blind.length === 0) page.paragraph('Nothing.', { indent: 2 });
  for (const group of blind) {
    page.paragraph(`${sayWhere(group)}${seenLater(group)}`, { indent: 2 });
    page.paragraph(opened(group.spots), { indent: 6 });
  }
  for (const how of Object.keys(headings) as DisplacedHow[]) {
    const rows = together(spots.filter((spot) => spot.how === how && !isBlind(spot)));
    if (rows.length === 0) continue;
    page.heading(headings[how]);
    page.table([
      ['', 'a check fails', 'named first'],
      ...rows.map(({ spots, markers, ways }) => [
        `${markers} ${ways}`,
        atLeast(spots.map(({ fails }) => Math.ceil(fails!.mm))),
        atLeast(spots.map(({ namedFromMm }) => namedFromMm)),
      ]),
    ]);
  }
  page.blank();
  page.paragraph(
    'A displacement that is seen may still be ordinary anatomy, and one that is not seen is found only by palpating. The assessor decides.',
  );
  return page.toString();
}

interface Group {
  readonly how: DisplacedHow;
  readonly markers: string;
  readonly ways: string;
  readonly spots: readonly Visibility[];
}

/** Right and left, and both ways along one line, told together where they fare alike. */
function together(spots: readonly Visibility[]): Group[] {
  const groups = new Map<string, { how: DisplacedHow; stem: string; spots: Visibility[] }>();
  for (const spot of spots) {
    const stem = stemOf(spot.markers[0]!);
    const key = `${spot.how} ${stem} ${lines[spot.toward]}`;
    const group = groups.get(key) ?? { how: spot.how, stem, spots: [] };
    group.spots.push(spot);
    groups.set(key, group);
  }
  return [...groups.values()].map(({ how, stem, spots }) => ({
    how,
    markers: namesOf(stem, spots),
    ways: [...new Set(spots.map(({ toward }) => toward))].join(' or '),
    spots,
  }));
}

/** What is not seen of a marker by itself is not seen with its followers either, and need not be said again. */
function withoutRepeats(groups: readonly Group[]): Group[] {
  const plain: Partial<Record<DisplacedHow, DisplacedHow>> = {
    'with-followers': 'alone',
    'both-sides-with-followers': 'both-sides-alike',
  };
  return groups.filter(
    ({ how, markers, ways }) =>
      !groups.some((other) => other.how === plain[how] && other.markers === markers && other.ways === ways),
  );
}

const lines: Readonly<Record<Visibility['toward'], string>> = {
  forward: 'fore-aft',
  backward: 'fore-aft',
  up: 'up-down',
  down: 'up-down',
  outward: 'sideways',
  inward: 'sideways',
  left: 'sideways',
  right: 'sideways',
};

function stemOf(label: string): string {
  return label.replace(/^[RL]_/, '');
}

function namesOf(stem: string, spots: readonly Visibility[]): string {
  const labels = [...new Set(spots.flatMap(({ markers }) => markers))];
  return labels.length > 1 && labels.every((label) => stemOf(label) === stem) ? stem : labels.join(', ');
}

const hows: Readonly<Record<DisplacedHow, string>> = {
  alone: '',
  'with-followers': ', with the markers that were set on it',
  'both-sides-alike': ' on both sides',
  'both-sides-opposite': ' on one side and the opposite way on the other',
  'both-sides-with-followers': ' on both sides, with the markers that were set on them',
};

function sayWhere({ markers, ways, how }: Group): string {
  return `${markers} ${ways}${hows[how]}`;
}

function seenLater({ spots }: Group): string {
  const seen = spots.flatMap(({ fails }) => (fails === null ? [] : [Math.ceil(fails.mm)]));
  return seen.length < spots.length ? '' : ` (a check fails from ${Math.min(...seen)} mm)`;
}

function atLeast(sizes: readonly (number | null)[]): string {
  const known = sizes.filter((mm) => mm !== null);
  if (known.length < sizes.length) return '-';
  const [least, most] = [Math.min(...known), Math.max(...known)];
  return least === most ? `${least} mm` : `${least} to ${most} mm`;
}

function opened(spots: readonly Visibility[]): string {
  const openers = new Map(spots.flatMap(({ openers }) => openers).map((opener) => [sayOpener(opener), opener]));
  if (openers.size === 0) return 'Only palpating again would show it.';
  return `Would show it: ${[...openers.keys()].join('; ')}.`;
}

function sayOpener({ by, name, between, changePerMm }: Opener): string {
  const per = changePerMm === null ? '' : ` (${Math.abs(changePerMm).toFixed(1)} mm for each mm)`;
  if (by === 'marker') return `marker ${name}, for which checks wait`;
  if (name === 'kneeBend') return 'a knee bend before the markers come off';
  if (by === 'measurement') return `the reading of ${name}${per}`;
  return `a rule of the kind ${name}, ${stemOf(between[0]!)} to ${stemOf(between[1]!)}, where people are alike enough${per}`;
}
