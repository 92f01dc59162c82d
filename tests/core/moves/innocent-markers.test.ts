import { describe, expect, it } from 'vitest';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../../src/core/check-trial.ts';
import type { Report } from '../../../src/core/report/report.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { placedByHand } from '../../support/ordinary-people.ts';
import { medial20, normsOf, wands22 } from '../../support/shipped-marker-sets.ts';
import { stillContents } from '../../support/still-trial.ts';

const offs = [{ forward: 20 }, { forward: -30 }, { forward: 30 }, { up: 30 }, { up: -30 }];

/** Palpated markers off by themselves, the markers set by eye where they belong, weighed by the norms that ship. */
function planted(set: typeof wands22): { marker: string; mm: number; report: Report }[] {
  const norms = normsOf(set.name);
  const palpated = set.markers.filter(({ placedBy, purpose }) => placedBy === 'palpation' && purpose !== 'tracks');
  return [2, 3, 7, 11, 13].flatMap((seed) => {
    const person = placedByHand(seed);
    return palpated.flatMap(({ label }) =>
      offs.map((off) => {
        const bytes = writeC3d(stillContents(displace(person, label, off), { set, frames: 30 }));
        const source = { path: 'standing.c3d', sha256: '' };
        return {
          marker: label,
          mm: Math.abs(Object.values(off)[0]!),
          report: checkTrial(bytes, set, emptySession, source, norms),
        };
      }),
    );
  });
}

describe.each([wands22, medial20])('a palpated marker that is off, with $name', (set) => {
  const found = planted(set).filter(({ report }) => report.verdict === 'adjust');
  const orders = found.filter(({ report }) => report.moves.some(({ action }) => action === 'move'));

  it('hardly ever has another marker ordered off its place', () => {
    expect(found.length).toBeGreaterThan(50);
    expect(orders.length / found.length, orders.map(({ marker }) => marker).join(' ')).toBeLessThan(0.06);
  });

  it('has no marker ordered to move that is not held likely to be off', () => {
    for (const { report } of found) {
      for (const { action, probability } of report.moves)
        if (action === 'move') expect(probability).toBeGreaterThanOrEqual(0.4);
    }
  });

  it('is told how far it is off, where it is named as most likely', () => {
    const named = found.filter(
      ({ marker, report: { moves } }) => moves[0]?.marker === marker && moves[0].probability! > 0.75,
    );
    expect(named.length).toBeGreaterThan(20);
    const far = named.filter(({ mm, report: { moves } }) => moves[0]!.distanceMm! > 1.5 * mm);
    expect(far.length / named.length).toBeLessThan(0.05);
  });

  it('is looked at before markers set by eye are moved', () => {
    for (const { report } of found) {
      const actions = report.moves.map(({ action }) => action);
      const firstMove = actions.indexOf('move');
      if (firstMove >= 0) expect(actions.slice(firstMove)).not.toContain('palpate-again');
    }
  });
});
