import { existsSync, readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../../sample-trials/landmarks.ts';
import type { Vec3 } from '../../../src/core/geometry/vector.ts';
import { inspectTrial } from '../../../src/core/inspect-trial.ts';
import { labelOf } from '../../../src/core/marker-set-draft/draft-marker-set.ts';
import { fewestPoints, nameTrajectories } from '../../../src/core/marker-set-draft/name-trajectories.ts';
import { placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';

const folder = new URL('../../../../shared/standing-trials/', import.meta.url);
const here = existsSync(folder);

function named(points: readonly Vec3[]): (string | null)[] {
  return nameTrajectories(points).map(({ landmark }) => landmark && labelOf(landmark));
}

function pick(positions: MarkerPositions, labels: readonly string[]): { labels: string[]; points: Vec3[] } {
  const on = labels.filter((label) => positions.has(label));
  return { labels: on, points: on.map((label) => [...positions.get(label)!] as Vec3) };
}

const without = (stems: readonly string[]) => (label: string) => !stems.includes(label.replace(/^[RL]_/, ''));
const labelsOf = (set: typeof wands22) => set.markers.map(({ label }) => label);
const protocols: [string, string[]][] = [
  ['wands, medial markers on', labelsOf(wands22)],
  ['wands', labelsOf(wands22).filter(without(['ME', 'MM']))],
  ['a sacral marker', labelsOf(medial20).filter(without(['PSIS']))],
  ['two markers behind', labelsOf(medial20).filter(without(['S1']))],
  ['no markers that only track', labelsOf(medial20).filter(without(['S1', 'TW', 'SW']))],
];

describe.each(protocols)('people marked with %s', (_, labels) => {
  it('have every trajectory named', () => {
    for (let seed = 1; seed <= 5; seed += 1) {
      const person = pick(placedByHand(seed), labels);
      expect(named(person.points), `seed ${seed}`).toEqual(person.labels);
    }
  });
});

describe('nameTrajectories', () => {
  const adult = pick(symmetricAdult(), labelsOf(wands22));

  it('does not mind where somebody stands and faces, which axis is up, the unit, or the order', () => {
    const turns: ((p: Vec3) => Vec3)[] = [
      ([x, y, z]) => [x, y, z],
      ([x, y, z]) => [x, z, -y],
      ([x, y, z]) => [z, x, y],
      ([x, y, z]) => [x, -y, -z],
    ];
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 6.28, noNaN: true }),
        fc.constantFrom(...turns),
        fc.constantFrom(1, 0.1, 0.001, 1 / 25.4),
        fc.shuffledSubarray([...adult.labels.keys()], { minLength: adult.labels.length }),
        (heading, tip, unit, order) => {
          const moved = adult.points.map(([x, y, z]) =>
            tip([
              x * Math.cos(heading) - y * Math.sin(heading) + 900,
              x * Math.sin(heading) + y * Math.cos(heading) - 400,
              z,
            ]).map((mm) => mm * unit),
          ) as Vec3[];
          expect(named(order.map((index) => moved[index]!))).toEqual(order.map((index) => adult.labels[index]!));
        },
      ),
      { numRuns: 12 },
    );
  });

  it('leaves what lies about in the room unnamed', () => {
    const clutter: Vec3[] = [
      [1500, 900, 20],
      [-1100, -700, 1900],
    ];
    const names = named([...adult.points, ...clutter]);
    expect(names.slice(adult.points.length)).toEqual([null, null]);
  });

  it('says nothing of too few points', () => {
    const few = adult.points.slice(0, fewestPoints - 1);
    expect(nameTrajectories(few).every(({ landmark }) => landmark === null)).toBe(true);
  });

  it('is unsure where a forefoot marker lies between two landmarks, and says which', () => {
    const person = symmetricAdult();
    const labels = labelsOf(medial20).filter(without(['S1']));
    const between = new Map(person);
    for (const side of ['R', 'L']) {
      const [a, b] = [person.get(`${side}_MET2`)!, person.get(`${side}_MET5`)!];
      between.set(`${side}_MET2`, [0, 1, 2].map((axis) => (a[axis]! + b[axis]!) / 2) as Vec3);
    }
    const { labels: on, points } = pick(between, labels);
    const foot = nameTrajectories(points)[on.indexOf('R_MET2')]!;
    expect(foot.confidence).toBeLessThan(0.9);
    expect([foot.landmark!.stem, foot.rival!.stem].sort()).toEqual(['MET2', 'MET5']);
  });
});

/** ../shared/standing-trials: real trials of openly licensed repositories. Labels are looked at only to count. */
describe.skipIf(!here)('eleven real standing trials with their labels blanked', () => {
  it('are named right for at least 95 of 100 trajectories', () => {
    const files: { file: string }[] = here ? JSON.parse(readFileSync(new URL('index.json', folder), 'utf8')) : [];
    let right = 0;
    let all = 0;
    const wrong: string[] = [];
    for (const { file } of files) {
      const { markers } = inspectTrial(new Uint8Array(readFileSync(new URL(file, folder))), file);
      const seen = markers.filter(({ mean }) => mean !== null);
      const names = nameTrajectories(seen.map(({ mean }) => mean!));
      seen.forEach(({ label }, index) => {
        const { landmark } = names[index]!;
        // The tibial tuberosity has no marker in the sets that ship; the index calls it TT.
        const side = landmark?.side === 'right' ? 'R' : 'L';
        const found = landmark && (labelOf(landmark) ?? `${side}_TT`);
        all += 1;
        if (found === label) right += 1;
        else wrong.push(`${file} ${label} as ${found}`);
      });
    }
    expect(all).toBe(215);
    expect(right / all, wrong.join(', ')).toBeGreaterThanOrEqual(0.95);
  });
});
