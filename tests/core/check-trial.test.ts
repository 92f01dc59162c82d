import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../sample-trials/landmarks.ts';
import { displace, turnWand } from '../../sample-trials/plant-fault.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import type { Report } from '../../src/core/report/report.ts';
import { placedByHand, symmetricAdult } from '../support/ordinary-people.ts';
import { medial20, wands22 } from '../support/shipped-marker-sets.ts';
import {
  checkBytes,
  checkPositions,
  type Filming,
  ruleValue,
  stillContents,
  type UpAxis,
} from '../support/still-trial.ts';

const faulty = (seed: number): MarkerPositions =>
  turnWand(displace(displace(placedByHand(seed), 'R_HEEL', { up: 15 }), 'S1', { left: 24 }), 'left', 'TW', 11);

/** What a reader acts on. */
function findings({ verdict, rules, moves, problems, stillFailing }: Report) {
  return {
    verdict,
    statuses: rules.map(({ id, status }) => [id, status]),
    moves: moves.map(({ action, marker, along, dependsOn, resolves, alternatives }) => [
      action,
      marker,
      along,
      dependsOn,
      resolves,
      alternatives.map((other) => other.marker),
    ]),
    problems: problems.map(({ code }) => code),
    stillFailing,
  };
}

function expectSame(found: Report, expected: Report, withinMm = 0.1): void {
  expect(findings(found)).toEqual(findings(expected));
  found.rules.forEach(({ id, value }, index) => {
    const other = expected.rules[index]!.value;
    if (value === null || other === null) expect(value).toBe(other);
    else expect(Math.abs(value - other), id).toBeLessThan(withinMm);
  });
  found.moves.forEach((move, index) => {
    const other = expected.moves[index]!;
    for (const [axis, mm] of Object.entries(move.mm ?? {})) {
      expect(
        Math.abs(mm - (other.mm as unknown as Record<string, number>)[axis]!),
        `${move.marker} ${axis}`,
      ).toBeLessThan(withinMm);
    }
  });
}

describe('where and how the laboratory films', () => {
  const ups: UpAxis[] = ['-Z', '+Y', '-Y', '+X', '-X'];
  const ways: [string, Partial<Filming>][] = [
    ...[45, 90, 137, 180, 271].map((headingDeg): [string, Partial<Filming>] => [
      `turned by ${headingDeg} degrees`,
      { headingDeg },
    ]),
    ...ups.map((upAxis): [string, Partial<Filming>] => [`${upAxis} up`, { upAxis, headingDeg: 30 }]),
    ['far from the origin', { standsAtMm: [7000, -12_000, 0] }],
    ['above the floor of the laboratory', { standsAtMm: [0, 0, 1500] }],
    ['below it', { standsAtMm: [0, 0, -600] }],
    ['in metres', { units: 'm' }],
    ['in centimetres', { units: 'cm' }],
    ['in inches', { units: 'in' }],
    [
      'in metres, Y up, turned and far away',
      { units: 'm', upAxis: '+Y', headingDeg: 200, standsAtMm: [2000, 900, 100] },
    ],
  ];

  it.each(ways)('%s, nothing found changes', (_, how) => {
    for (const set of [wands22, medial20]) {
      for (const seed of [3, 11, 24])
        expectSame(checkPositions(faulty(seed), { set, ...how }), checkPositions(faulty(seed), { set }));
    }
  });

  it('as integers, on DEC and on SGI machines, nothing found changes', () => {
    const contents = stillContents(faulty(5));
    const plain = checkBytes(writeC3d(contents));
    for (const processor of ['intel', 'dec', 'mips'] as const) {
      for (const numberFormat of ['float', 'int'] as const) {
        expectSame(checkBytes(writeC3d({ ...contents, processor, numberFormat })), plain);
      }
    }
  });

  it('with 200 more points around, nothing found changes', () => {
    const { labels, pointCount, frameCount, values, ...rest } = stillContents(faulty(5));
    const more = Array.from({ length: 200 }, (_, index) => `X${index}`);
    const all = new Float32Array(frameCount * (pointCount + 200) * 4);
    for (let frame = 0; frame < frameCount; frame += 1) {
      const start = frame * (pointCount + 200) * 4;
      // The others come first, so that no index is right by chance.
      all.set(
        Float32Array.from({ length: 800 }, (_, index) => (index % 4 === 3 ? 0 : index * 13)),
        start,
      );
      all.set(values.subarray(frame * pointCount * 4, (frame + 1) * pointCount * 4), start + 800);
    }
    const report = checkBytes(
      writeC3d({ ...rest, labels: [...more, ...labels], pointCount: pointCount + 200, frameCount, values: all }),
    );
    expectSame(report, checkPositions(faulty(5)), 1e-9);
  });

  it('the same bytes give the same report', () => {
    const bytes = writeC3d(stillContents(faulty(9)));
    const before = bytes.slice();
    expect(checkBytes(bytes)).toEqual(checkBytes(bytes.slice()));
    expect(bytes).toEqual(before);
  });
});

describe('a person seen in a mirror', () => {
  const other = (text: string) =>
    text
      .replace(/\b([RL])_/g, (_, side) => (side === 'R' ? 'L_' : 'R_'))
      .replace(/\b(right|left)\b/g, (side) => (side === 'right' ? 'left' : 'right'));
  const mirrored = (positions: MarkerPositions): MarkerPositions =>
    new Map([...positions].map(([label, [forward, left, up]]) => [other(label), [forward, -left, up]]));

  it('has the same findings on the other side', () => {
    for (const set of [wands22, medial20]) {
      for (let seed = 1; seed <= 40; seed += 1) {
        const [seen, reflected] = [faulty(seed), mirrored(faulty(seed))].map((one) => checkPositions(one, { set })) as [
          Report,
          Report,
        ];
        const sided = (report: Report) => report.rules.filter(({ side }) => side === 'right' || side === 'left');
        const expected = new Map(sided(seen).map((rule) => [other(rule.id), rule]));
        for (const rule of sided(reflected)) {
          expect(rule.status, `${seed} ${rule.id}`).toBe(expected.get(rule.id)!.status);
          if (rule.value !== null) expect(rule.value).toBeCloseTo(expected.get(rule.id)!.value!, 3);
        }
        expect(reflected.moves.map(({ marker }) => marker).sort()).toEqual(
          seen.moves.map(({ marker }) => other(marker!)).sort(),
        );
        for (const move of reflected.moves) {
          const twin = seen.moves.find(({ marker }) => marker === other(move.marker!))!;
          expect(move.along).toBe(other(twin.along!));
          expect(move.mm!.up).toBeCloseTo(twin.mm!.up, 2);
          expect(move.mm!.forward).toBeCloseTo(twin.mm!.forward, 2);
        }
      }
    }
  });
});

describe('a marker shifted by a known amount', () => {
  const adult = symmetricAdult();
  const change = (label: string, shift: { forward?: number; left?: number; up?: number }, rule: string): number =>
    ruleValue(checkPositions(displace(adult, label, shift)), rule) - ruleValue(checkPositions(adult), rule);

  it.each([
    ['R_HEEL', { up: 9.3 }, 'heel-level.right', 9.3],
    ['L_MET5', { up: 4 }, 'heel-level.left', -4],
    ['R_HEEL', { up: -7 }, 'heels-alike', -7],
    ['L_ASIS', { up: 17 }, 'asis-level', -17],
    ['S1', { left: 8.4 }, 'sacral-on-midline', 8.4],
    ['S1', { forward: -30 }, 'sacral-on-midline', 0],
    ['R_ASIS', { left: -10 }, 'sacral-on-midline', 5],
    ['R_LM', { up: 6 }, 'ankles-level', 6],
    ['L_LE', { up: -11 }, 'knees-level', 11],
    ['C7', { left: -21 }, 'neck-on-midline', -21],
    ['R_GT', { up: 12 }, 'trochanter-below.right', -12],
    ['L_GT', { left: 12 }, 'trochanter-outside.left', 12],
    ['R_GT', { left: -12 }, 'trochanter-outside.right', 12],
  ])('%s by %o changes %s by %d', (label, shift, rule, expected) => {
    expect(change(label, shift, rule)).toBeCloseTo(expected, 1);
  });

  it('is measured across the line when it is a wand, along the view', () => {
    // Straight forward by 10: the plane of line and knee axis is turned by the knee turn (2.5 degrees) and the line leans.
    const moved = change('R_TW', { forward: 10 }, 'thigh-wand-in-line.right');
    expect(moved).toBeGreaterThan(9.8);
    expect(moved).toBeLessThanOrEqual(10);
    // Along the view nothing is seen.
    const [lateral, medial] = [adult.get('R_LE')!, adult.get('R_ME')!];
    const along = { forward: lateral[0] - medial[0], left: lateral[1] - medial[1], up: lateral[2] - medial[2] };
    expect(change('R_TW', along, 'thigh-wand-in-line.right')).toBeCloseTo(0, 2);
  });
});
