import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { checkPositions } from '../../support/still-trial.ts';

const figureOf = (positions = symmetricAdult(), set = wands22) => checkPositions(positions, { set }).figure!;
const named = (joins: readonly (readonly [string, string])[]) => joins.map((join) => [...join].sort().join(' - '));

describe('deriveFigure', () => {
  it('draws spine, pelvis, limbs and feet, and wands that stand off', () => {
    const joins = named(figureOf().joins);
    for (const expected of ['C7 - S1', 'L_ASIS - R_ASIS', 'R_ASIS - R_GT', 'R_GT - R_LE', 'R_HF - R_LE', 'R_HF - R_LM'])
      expect(joins).toContain(expected);
    for (const expected of ['R_GT - R_TW', 'R_LE - R_TW', 'R_HEEL - R_LM', 'R_LM - R_MET5', 'R_HEEL - R_MET5'])
      expect(joins).toContain(expected);
  });

  it('draws another marker set from its own segments', () => {
    const joins = named(figureOf(symmetricAdult(), medial20).joins);
    expect(joins).toContain('L_ASIS - R_ASIS');
    expect(joins).toContain('R_LM - R_SW');
    expect(joins.join()).not.toMatch(/GT|MET5|HF/);
  });

  it('joins right and left alike, joins nothing twice, and never crosses from one leg to the other', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 500 }), (seed) => {
        const joins = named(figureOf(placedByHand(seed)).joins);
        expect(new Set(joins).size).toBe(joins.length);
        const other = (label: string) => label.replace(/^[RL]_/, (side) => (side === 'R_' ? 'L_' : 'R_'));
        const mirrored = joins.map((join) => join.split(' - ').map(other).sort().join(' - '));
        expect([...mirrored].sort()).toEqual([...joins].sort());
        const across = joins.filter((join) => /^L_.+ - R_/.test(join));
        expect(across.filter((join) => !/ASIS|ACR/.test(join))).toEqual([]);
      }),
      { numRuns: 25 },
    );
  });

  it('connects every marker that is on, whichever are missing', () => {
    fc.assert(
      fc.property(fc.subarray(['R_GT', 'L_LE', 'R_HF', 'L_LM', 'C7', 'R_MM', 'R_HEEL', 'L_TW']), (missing) => {
        const positions = new Map(symmetricAdult());
        for (const label of missing) positions.delete(label);
        const { joins, segments } = figureOf(positions);
        const all = segments.flatMap(({ markers }) => markers);
        const reached = new Set(['R_ASIS']);
        for (let before = 0; before < reached.size; ) {
          before = reached.size;
          for (const [a, b] of joins) {
            if (reached.has(a)) reached.add(b);
            if (reached.has(b)) reached.add(a);
          }
        }
        expect([...reached].sort()).toEqual([...all].sort());
      }),
      { numRuns: 40 },
    );
  });

  it('gives the ends of long axes, and the line of a foot', () => {
    const { segments } = figureOf();
    const thigh = segments.find(({ name }) => name === 'thigh.right')!;
    expect(thigh.longAxis!.to[2]).toBeGreaterThan(thigh.longAxis!.from[2] + 300);
    const foot = segments.find(({ name }) => name === 'foot.left')!;
    expect(foot.longAxis).toBeNull();
    expect(foot.forward!.to[0]).toBeGreaterThan(foot.forward!.from[0] + 100);
    expect(segments.find(({ name }) => name === 'pelvis')).toMatchObject({ longAxis: null, forward: null });
  });
});
