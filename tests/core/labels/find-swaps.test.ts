import { describe, expect, it } from 'vitest';
import { displace, remove, swapLabels, swapSides } from '../../../sample-trials/plant-fault.ts';
import { seededRandom } from '../../../sample-trials/seeded-random.ts';
import { findSwaps } from '../../../src/core/labels/find-swaps.ts';
import type { MarkerSet } from '../../../src/core/marker-set/marker-set.ts';
import { inOrder, placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { checkPositions } from '../../support/still-trial.ts';

type Positions = ReturnType<typeof symmetricAdult>;

const labelsOf = (set: MarkerSet) => set.markers.map((marker) => marker.label);

/** Exchanges found, by label, each pair in alphabetical order. */
function swapsIn(positions: Positions, set: MarkerSet = wands22): string[] {
  return findSwaps(inOrder(positions, labelsOf(set)), set).flatMap(({ exchanges }) =>
    exchanges.map((pair) =>
      pair
        .map((marker) => set.markers[marker]!.label)
        .sort()
        .join(' '),
    ),
  );
}

const both = [
  ['lower-limb-wands-22', wands22],
  ['lower-limb-medial-20', medial20],
] as const;

describe.each(both)('findSwaps with %s', (_, set) => {
  const sided = set.markers.filter((marker) => marker.side === 'right');
  const people = Array.from({ length: 12 }, (_, index) => placedByHand(index + 1));

  it('finds nothing on 2,000 ordinary people, children among them', () => {
    for (let seed = 1; seed <= 2000; seed += 1) {
      expect(swapsIn(placedByHand(seed), set), `seed ${seed}`).toEqual([]);
    }
  });

  it('does not call a marker that is up to 40 mm off a swap', () => {
    const random = seededRandom(9);
    for (let seed = 1; seed <= 2000; seed += 1) {
      const label = labelsOf(set)[Math.floor(random.between(0, set.markers.length))]!;
      const [forward, left, up] = [random.bell(1), random.bell(1), random.bell(1)];
      const size = 40 / Math.hypot(forward, left, up);
      const off = displace(placedByHand(seed), label, { forward: forward * size, left: left * size, up: up * size });
      expect(swapsIn(off, set), `seed ${seed}, ${label}`).toEqual([]);
    }
  });

  it.each(sided.map((marker) => [marker.label, marker.mirror!]))('finds %s exchanged with %s', (right, left) => {
    for (const person of people) {
      expect(swapsIn(swapLabels(person, right, left), set)).toEqual([[right, left].sort().join(' ')]);
    }
  });

  it.each(set.oftenSwapped.filter(([first]) => first.startsWith('R_')))(
    'finds %s exchanged with %s',
    (first, second) => {
      const swapped = people.map((person) => swapsIn(swapLabels(person, first, second), set).join('; '));
      const right = swapped.filter((found) => found === [first, second].sort().join(' '));
      expect(right.length, swapped.join(' | ')).toBeGreaterThanOrEqual(people.length - 1);
      expect(new Set(swapped.filter((found) => !right.includes(found)))).toEqual(
        new Set(right.length < people.length ? [''] : []),
      );
    },
  );

  it('finds any two labels of one side that are exchanged', () => {
    const missed = sided.flatMap(({ label: first }, index) =>
      sided.slice(index + 1).flatMap(({ label: second }) => {
        const pair = [first, second].sort().join(' ');
        const found = people.slice(0, 4).filter((person) => {
          const swaps = swapsIn(swapLabels(person, first, second), set);
          return swaps.length === 1 && swaps[0] === pair;
        });
        return found.length === 4 ? [] : [`${pair}: ${found.length} of 4`];
      }),
    );
    expect(missed).toEqual([]);
  });

  it('finds labels of one side that are exchanged on both', () => {
    const [first, second] = set === wands22 ? ['HF', 'SW'] : ['LE', 'TW'];
    const once = swapLabels(symmetricAdult(), `R_${first}`, `R_${second}`);
    const twice = swapLabels(once, `L_${first}`, `L_${second}`);
    expect(swapsIn(twice, set).sort()).toEqual([`L_${first} L_${second}`, `R_${first} R_${second}`].sort());
  });

  it('exchanges the whole body at once when every left label lies on the right', () => {
    for (const person of people) {
      const [swap, ...more] = findSwaps(inOrder(swapSides(person), labelsOf(set)), set);
      expect(more).toEqual([]);
      expect(swap!.kind).toBe('whole-body');
      expect(swap!.exchanges).toHaveLength(sided.length);
    }
  });
});

describe('findSwaps', () => {
  it('finds a pair and a same-side exchange at once', () => {
    const swapped = swapLabels(swapLabels(symmetricAdult(), 'R_LE', 'L_LE'), 'L_HEEL', 'L_MET5');
    expect(swapsIn(swapped).sort()).toEqual(['L_HEEL L_MET5', 'L_LE R_LE']);
  });

  it('finds a same-side exchange where the other side was not seen', () => {
    const person = swapLabels(symmetricAdult(), 'R_HEEL', 'R_MET5');
    expect(swapsIn(remove(person, 'L_MET5'))).toEqual(['R_HEEL R_MET5']);
  });

  it('says nothing of a marker that is not there', () => {
    expect(swapsIn(new Map())).toEqual([]);
  });

  it('finds an exchange on a body whose legs are not alike', () => {
    const bent = symmetricAdult({ left: { kneeFlexionDeg: 35 }, right: { footForwardMm: 60, shankExtraMm: 25 } });
    for (const [first, second] of [
      ['R_TW', 'R_GT'],
      ['L_HEEL', 'L_MET5'],
      ['L_HF', 'L_SW'],
      ['R_LE', 'R_ME'],
    ] as const) {
      expect(swapsIn(swapLabels(bent, first, second))).toEqual([[first, second].sort().join(' ')]);
    }
  });
});

describe('a body seen in the laboratory', () => {
  it('is told from one that faces the other way, whatever the heading', () => {
    for (let headingDeg = 0; headingDeg < 360; headingDeg += 15) {
      const straight = checkPositions(symmetricAdult(), { headingDeg });
      expect(straight.problems).toEqual([]);
      const swapped = checkPositions(swapSides(symmetricAdult()), { headingDeg });
      expect(swapped.problems.map(({ code }) => code)).toEqual(['labels-swapped']);
      expect(swapped.problems[0]!.message).toMatch(/does not face the other way/);
      expect(swapped.moves.map(({ action }) => action)).toEqual(['relabel']);
    }
  });
});
