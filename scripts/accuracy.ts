// How often the findings are right, on people that the norms were not made on (tests/accuracy/population.ts).
//
//   npm run accuracy -- --people 2000 --seed 1 [--write]
//
// `--write` puts the table into docs/accuracy.md between its markers. One seed was for development; the table has others.
import { createHash } from 'node:crypto';
import { readFileSync, writeFileSync } from 'node:fs';
import { parseArgs } from 'node:util';
import { type SeededRandom, seededRandom } from '../sample-trials/seeded-random.ts';
import type { Norms } from '../src/core/decision/norms.ts';
import { weighMarkers } from '../src/core/decision/weigh-markers.ts';
import type { Vec3 } from '../src/core/geometry/vector.ts';
import { parseMarkerSet } from '../src/core/marker-set/parse-marker-set.ts';
import { planMoves } from '../src/core/moves/plan-moves.ts';
import { bodyFromPositions } from '../src/core/pose/body-from-positions.ts';
import { slidesOf } from '../src/core/pose/slides.ts';
import { assessRules, isAssessed } from '../src/core/rules/assess-rules.ts';
import { assessStance } from '../src/core/rules/assess-stance.ts';
import { expectedRules } from '../src/core/rules/expected-rules.ts';
import { emptySession } from '../src/core/session/session.ts';
import { type Population, population, setByEye } from '../tests/accuracy/population.ts';

const root = new URL('../', import.meta.url);
const { values: flags } = parseArgs({
  options: {
    people: { type: 'string', default: '2000' },
    seed: { type: 'string', default: '1' },
    write: { type: 'boolean', default: false },
  },
});
const people = Number(flags.people);
const seed = Number(flags.seed);
const bytes = readFileSync(new URL('shared/marker-sets/lower-limb-wands-22.json', root));
const set = parseMarkerSet(bytes.toString('utf8'), createHash('sha256').update(bytes).digest('hex'));
const norms: Norms = JSON.parse(readFileSync(new URL('shared/norms/lower-limb-wands-22.json', root), 'utf8'));
const sizes = [10, 15, 20, 30, 40];

interface Tally {
  n: number;
  failing: number;
  anyStep: number;
  first: number;
  among: number;
  rightWay: number;
  errors: number[];
}
const newTally = (): Tally => ({ n: 0, failing: 0, anyStep: 0, first: 0, among: 0, rightWay: 0, errors: [] });

/** Hand scatter: one figure for every palpated mark, or what the marker set states. */
const levels = [
  { name: '1.5 mm', mm: 1.5 },
  { name: '4 mm', mm: 4 },
  { name: 'as the set states', mm: null },
] as const;

function mark(from: Population, random: SeededRandom, scatter: number | null, fault: Fault | null): Map<string, Vec3> {
  const { landmarks, statureMm } = from.draw();
  const marked = new Map(landmarks);
  const body = bodyFromPositions(set, emptySession, (label) => landmarks.get(label))!;
  for (const marker of set.markers.filter(({ placedBy }) => placedBy === 'palpation')) {
    for (const { direction, vector } of slidesOf(body, marker)) {
      const mm = random.bell(scatter ?? marker.scatterMm[direction === 'left' ? 'outward' : direction]);
      shift(marked, marker.label, vector, mm);
    }
  }
  if (fault?.before === true) shift(marked, fault.label, fault.vector(body), fault.mm);
  setByEye(marked, statureMm, scatter ?? 3, random);
  if (fault?.before === false) shift(marked, fault.label, fault.vector(body), fault.mm);
  return marked;
}

interface Fault {
  readonly label: string;
  readonly mm: number;
  /** Planted before the markers set by eye are placed on it. */
  readonly before: boolean;
  vector(body: ReturnType<typeof bodyFromPositions> & object): Vec3;
}

function shift(marked: Map<string, Vec3>, label: string, [x, y, z]: Vec3, mm: number): void {
  const [a, b, c] = marked.get(label)!;
  marked.set(label, [a + mm * x, b + mm * y, c + mm * z]);
}

function findings(marked: ReadonlyMap<string, Vec3>) {
  const body = bodyFromPositions(set, emptySession, (label) => marked.get(label))!;
  const outcomes = assessRules(body, expectedRules(set, emptySession), emptySession);
  const stance = assessStance(body, set, emptySession);
  const plan = planMoves(body, outcomes, stance, [], emptySession, () =>
    weighMarkers(body, outcomes.filter(isAssessed), norms, new Set()),
  );
  return { body, failing: outcomes.some(({ status }) => status === 'fail'), moves: plan.moves };
}

const calibration = Array.from({ length: 10 }, () => ({ n: 0, right: 0, said: 0 }));
const lines: string[] = [];

for (const { name, mm: scatter } of levels) {
  const from = population(seed * 1000 + levels.findIndex((level) => level.name === name));
  const random = seededRandom(seed * 7919 + 17);
  const well = newTally();
  for (let i = 0; i < people; i++) {
    const { failing, moves } = findings(mark(from, random, scatter, null));
    well.n += 1;
    if (failing) well.failing += 1;
    const doubted = moves.find(({ marker, mm }) => marker !== undefined && mm !== undefined);
    if (doubted?.probability != null) note(doubted.probability, false);
  }
  lines.push(row(name, 'well marked', `false alarms ${share(well.failing, well.n)}`, '', '', ''));
  for (const size of sizes) {
    for (const how of ['set by eye', 'palpated, alone', 'palpated, with followers'] as const) {
      const tally = newTally();
      const able = set.markers.filter(({ placedBy }) => (placedBy === 'eye') === (how === 'set by eye'));
      for (let i = 0; i < people / 4; i++) {
        const marker = able[Math.floor(random.between(0, able.length))]!;
        const which = Math.floor(random.between(0, marker.slides.length));
        const sign = random.between(0, 1) < 0.5 ? -1 : 1;
        const fault: Fault = {
          label: marker.label,
          mm: sign * size,
          before: how === 'palpated, with followers',
          vector: (body) => slidesOf(body, marker)[which]!.vector,
        };
        const { body, failing, moves } = findings(mark(from, random, scatter, fault));
        tally.n += 1;
        if (failing) tally.failing += 1;
        const steps = moves.filter((move) => move.marker !== undefined && move.mm !== undefined);
        const first = steps[0];
        if (first !== undefined) tally.anyStep += 1;
        if (steps.some((step) => step.marker === marker.label)) tally.among += 1;
        if (first?.probability != null) note(first.probability, first.marker === marker.label);
        if (first?.marker !== marker.label) continue;
        tally.first += 1;
        const { forward, up, ...across } = first.mm!;
        const outward = marker.side === 'right' ? -1 : 1;
        const left = 'left' in across ? across.left : outward * across.outward;
        const way = slidesOf(body, marker)[which]!.vector;
        const along = forward * way[0] + left * way[1] + up * way[2];
        if (along * sign < 0) tally.rightWay += 1;
        tally.errors.push(Math.abs(Math.abs(along) - size));
      }
      const median = tally.errors.sort((a, b) => a - b)[tally.errors.length >> 1];
      lines.push(
        row(
          name,
          `${size} mm, ${how}`,
          `a rule fails ${share(tally.failing, tally.n)}`,
          tally.failing === 0 ? '' : share(tally.first, tally.failing),
          tally.first === 0 ? '' : share(tally.rightWay, tally.first),
          median === undefined ? '' : `${median.toFixed(1)} mm`,
        ),
      );
    }
  }
}

function note(probability: number, right: boolean): void {
  const bin = calibration[Math.min(9, Math.floor(probability * 10))]!;
  bin.n += 1;
  bin.said += probability;
  if (right) bin.right += 1;
}

/** Share with its 95 % Wilson interval. */
function share(k: number, n: number): string {
  const z = 1.96;
  const p = k / n;
  const middle = (p + (z * z) / (2 * n)) / (1 + (z * z) / n);
  const half = (z * Math.sqrt((p * (1 - p)) / n + (z * z) / (4 * n * n))) / (1 + (z * z) / n);
  return `${(100 * p).toFixed(0)} % (${(100 * Math.max(0, middle - half)).toFixed(0)} to ${(100 * Math.min(1, middle + half)).toFixed(0)})`;
}

function row(...cells: string[]): string {
  return `| ${cells.join(' | ')} |`;
}

const table = [
  `Seed ${seed}, ${people} well-marked people and ${people / 4} for each size and kind of fault at each level of scatter.`,
  '',
  row(
    'hand scatter',
    'planted',
    'found',
    'right marker first, of those',
    'right way, of those',
    'median error of the distance',
  ),
  row('---', '---', '---', '---', '---', '---'),
  ...lines,
  '',
  row('probability said', 'first steps', 'mean said', 'right'),
  row('---', '---:', '---:', '---:'),
  ...calibration
    .map(({ n, said, right }, i) =>
      n < 200
        ? null
        : row(
            `${(i / 10).toFixed(1)} to ${((i + 1) / 10).toFixed(1)}`,
            String(n),
            (said / n).toFixed(2),
            share(right, n),
          ),
    )
    .filter((line) => line !== null),
].join('\n');

process.stdout.write(`${table}\n`);
if (flags.write) {
  const page = new URL('docs/accuracy.md', root);
  const text = readFileSync(page, 'utf8');
  const marked = /<!-- accuracy -->[\s\S]*<!-- end of accuracy -->/;
  writeFileSync(
    page,
    text.replace(marked, () => `<!-- accuracy -->\n\n${table}\n\n<!-- end of accuracy -->`),
  );
}
