import { describe, expect, it } from 'vitest';
import { displace, swapLabels, turnWand } from '../../../sample-trials/plant-fault.ts';
import { distance } from '../../../src/core/geometry/vector.ts';
import type { Report } from '../../../src/core/report/report.ts';
import { carryOut } from '../../support/carry-out-moves.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { checkPositions, failing, ruleValue } from '../../support/still-trial.ts';

const adult = symmetricAdult();
const markers = (report: Report) => report.moves.map(({ marker }) => marker);

function expectBack(
  report: Report,
  marker: string,
  planted: { forward?: number; outward?: number; left?: number; up?: number },
  within = 0.1,
) {
  const move = report.moves.find((one) => one.marker === marker)!;
  for (const [axis, mm] of Object.entries(move.mm!)) {
    expect(Math.abs(mm + (planted[axis as keyof typeof planted] ?? 0)), `${marker} ${axis}`).toBeLessThan(within);
  }
}

describe('nothing planted', () => {
  it.each([wands22, medial20])('asks for nothing: $name', (set) => {
    const report = checkPositions(adult, { set });
    expect([report.verdict, report.moves, failing(report), report.stillFailing]).toEqual(['ready', [], [], []]);
  });
});

describe('a heel marker', () => {
  it.each([
    ['R_HEEL', 12, 'down, toward the sole'],
    ['R_HEEL', -12, 'up, away from the sole'],
    ['L_HEEL', 25, 'down, toward the sole'],
    ['L_HEEL', -30, 'up, away from the sole'],
  ])('%s off by %d mm upward is sent back %s', (marker, up, along) => {
    const report = checkPositions(displace(adult, marker, { up }), { headingDeg: 130 });
    expect(report.verdict).toBe('adjust');
    expect(markers(report)).toEqual([marker]);
    expectBack(report, marker, { up });
    const [move] = report.moves;
    const side = marker.startsWith('R') ? 'right' : 'left';
    expect(move).toMatchObject({ action: 'move', along, side, probability: null, dependsOn: [] });
    expect(move!.distanceMm).toBeCloseTo(Math.abs(up), 1);
    expect(move!.instruction).toBe(`Move the patient's ${side} heel marker ${Math.abs(up)} mm ${along}.`);
  });
});

describe('a wand', () => {
  it.each([
    ['right', 'TW', 9, 'backward, toward the hamstrings'],
    ['left', 'TW', -10, 'forward, toward the front of the thigh'],
    ['right', 'SW', -10, 'forward, toward the shin'],
    ['left', 'SW', 12, 'backward, toward the calf'],
  ] as const)('%s %s turned %d degrees forward goes %s', (side, wand, turnDeg, along) => {
    const marker = `${side === 'right' ? 'R' : 'L'}_${wand}`;
    const report = checkPositions(turnWand(adult, side, wand, turnDeg));
    expect(markers(report)).toEqual([marker]);
    const [move] = report.moves;
    expect(move).toMatchObject({ action: 'move', along });
    expect(Math.sign(move!.turnDeg!)).toBe(-Math.sign(turnDeg));
    // Done as told, the tip is in line again and, but for the curve of its way, where it was.
    const after = carryOut(report.moves, turnWand(adult, side, wand, turnDeg));
    expect(distance(after.get(marker)!, adult.get(marker)!)).toBeLessThan(2.5);
    const rule = `${wand === 'TW' ? 'thigh' : 'shank'}-wand-in-line.${side}`;
    expect(Math.abs(ruleValue(checkPositions(after), rule))).toBeLessThan(0.05);
    expect(move!.instruction).toMatch(
      new RegExp(
        `^Turn the patient's ${side} (thigh|shank) wand \\d+° ${along}: its tip goes \\d+ mm, its base \\d+ mm\\.$`,
      ),
    );
  });

  it('turned on both sides is turned back on both', () => {
    const report = checkPositions(turnWand(turnWand(adult, 'right', 'TW', 8), 'left', 'TW', 8));
    expect(markers(report).sort()).toEqual(['L_TW', 'R_TW']);
    expect(report.notes.map(({ code }) => code)).toContain('both-sides-alike');
  });
});

describe('a palpated landmark', () => {
  it.each([
    ['R_LE', { up: 28 }],
    ['L_LE', { up: 28 }],
    ['R_LM', { up: 30 }],
    ['L_LM', { up: -30 }],
    ['S1', { left: 25 }],
    ['S1', { left: -25 }],
    ['C7', { left: 45 }],
  ])('%s off by %o is palpated again, and expected back', (marker, planted) => {
    const report = checkPositions(displace(adult, marker, planted));
    expect(markers(report)).toEqual([marker]);
    expect(report.moves[0]!.action).toBe('palpate-again');
    const [axis, mm] = Object.entries(planted)[0]!;
    const told = report.moves[0]!.mm! as unknown as Record<string, number>;
    expect(Math.abs(told[axis]! + mm)).toBeLessThan(0.1);
    // The skin slopes along the limb, so that a way up goes a little sideways as well.
    expect(report.moves[0]!.distanceMm!).toBeLessThan(Math.abs(mm) * 1.03);
  });

  it.each(['R_ASIS', 'L_ASIS'])('%s is told from the other one when it sits too low', (marker) => {
    const report = checkPositions(displace(adult, marker, { up: -35 }));
    expect(markers(report)).toEqual([marker]);
    const side = marker.startsWith('R') ? 'right' : 'left';
    expect(report.moves[0]!.mm!.up).toBeCloseTo(35, 0);
    expect(report.moves[0]!.instruction).toContain(`the patient's ${side} ASIS`);
    expect(report.moves[0]!.alternatives.map((other) => other.marker)).toContain(
      side === 'right' ? 'L_ASIS' : 'R_ASIS',
    );
  });

  it.each(['R_ASIS', 'L_ASIS'])('%s too high is at least named beside the other one, with its way', (marker) => {
    const [move] = checkPositions(displace(adult, marker, { up: 35 })).moves;
    const named = [move!, ...move!.alternatives].find((one) => one.marker === marker)!;
    expect(named.mm!.up).toBeCloseTo(-35, 0);
  });

  it('is not moved sideways for a mere remainder', () => {
    const [move] = checkPositions(displace(adult, 'R_GT', { up: 62 })).moves;
    expect(move!.marker).toBe('R_GT');
    expect(Math.abs(move!.mm!.forward)).toBeLessThan(3);
    expect(move!.mm!.up).toBeCloseTo(-62, 0);
  });

  it('is moved along the skin as its segment lies when it is right', () => {
    // A knee marker that is 45 mm back turns the knee axis, and the thigh's axes with it, by some 25 degrees.
    const [move] = checkPositions(displace(adult, 'L_LE', { forward: -45 })).moves;
    expect(move!.marker).toBe('L_LE');
    const { forward, outward } = move!.mm as { forward: number; outward: number };
    expect(forward).toBeGreaterThan(40);
    expect(Math.abs(outward)).toBeLessThan(5);
  });

  it('does not break on one side what it mends on the other', () => {
    for (const side of ['R', 'L']) {
      const report = checkPositions(displace(adult, `${side}_LE`, { up: -28 }));
      expect(markers(report)).toEqual([`${side}_LE`]);
      expect(report.stillFailing).toEqual([]);
    }
  });

  it.each([
    ['R_PSIS', -45, 'inward'],
    ['L_PSIS', 45, 'inward'],
    ['R_PSIS', 45, 'outward'],
    ['L_PSIS', -45, 'outward'],
  ])('%s %d mm to the left is sent %s, in words as in figures', (marker, left, way) => {
    const report = checkPositions(displace(adult, marker, { left }), { set: medial20 });
    const move = [report.moves[0]!, ...report.moves[0]!.alternatives].find((one) => one.marker === marker)!;
    expect(move.along).toMatch(new RegExp(`^${way}, `));
    expect((move.mm as { outward: number }).outward).toBeCloseTo(way === 'outward' ? 45 : -45, 1);
  });

  it('of the sacral marker is found in both its ways at once', () => {
    const report = checkPositions(displace(adult, 'S1', { up: -90, left: -35 }));
    expect(markers(report)).toEqual(['S1']);
    expect(report.moves[0]!.along).toBe("up, toward the head, and toward the patient's left");
    expect((report.moves[0]!.mm as { left: number }).left).toBeCloseTo(35, 1);
  });
});

describe('several at once', () => {
  it('are each sent back', () => {
    const report = checkPositions(turnWand(displace(adult, 'R_HEEL', { up: -14 }), 'left', 'TW', 10));
    // The wand costs the data more than the heel.
    expect(markers(report)).toEqual(['L_TW', 'R_HEEL']);
    expectBack(report, 'R_HEEL', { up: -14 });
    expect(report.stillFailing).toEqual([]);
  });

  it('palpated landmarks come before markers set by eye, which depend on them', () => {
    const report = checkPositions(turnWand(displace(adult, 'L_LE', { up: 28 }), 'left', 'TW', 10));
    expect(report.moves.map(({ action, marker }) => [action, marker])).toEqual([
      ['palpate-again', 'L_LE'],
      ['move', 'L_TW'],
    ]);
    expect(report.moves[1]!.dependsOn).toEqual([1]);
    expect(report.moves.map(({ step }) => step)).toEqual([1, 2]);
  });

  it('labels come before everything that is touched', () => {
    const report = checkPositions(displace(swapLabels(adult, 'R_LE', 'L_LE'), 'R_HEEL', { up: 14 }));
    expect(report.moves.map(({ action, marker }) => [action, marker])).toEqual([
      ['relabel', 'R_LE'],
      ['move', 'R_HEEL'],
    ]);
    expect(report.moves[1]!.dependsOn).toEqual([1]);
    expectBack(report, 'R_HEEL', { up: 14 });
  });

  it('a heel set level with a forefoot marker that is itself too high leaves a finding, and it is said so', () => {
    const report = checkPositions(displace(displace(adult, 'R_MET5', { up: 24 }), 'R_HEEL', { up: 24 }));
    expect(failing(report)).toEqual(['heels-alike']);
    expect(report.stillFailing).toEqual(['heels-alike']);
  });
});
