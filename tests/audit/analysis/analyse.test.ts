import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { seededRandom } from '../../../sample-trials/seeded-random.ts';
import { analyse } from '../../../src/audit/analysis/analyse.ts';
import type { SetSummary } from '../../../src/audit/parts/set-summary.ts';
import type { TrialRow } from '../../../src/audit/parts/trial-row.ts';
import { hashOf, madeRow, wandCheck } from '../make-row.ts';

const set: SetSummary = {
  sha256: 'f'.repeat(64),
  name: 'our-lab',
  version: '1.0.0',
  rules: (['right', 'left'] as const).map((side) => ({
    id: `thigh-wand-in-line.${side}`,
    stem: 'thigh-wand-in-line',
    title: 'Thigh wand in line',
    side,
    basis: 'construction',
    unit: 'mm',
    saysAbove: `the ${side} wand is {size} in front of its line`,
    saysBelow: `the ${side} wand is {size} behind its line`,
    why: '',
  })),
  markers: [],
};

function analysed(rows: readonly TrialRow[], mostReexaminations = 50) {
  return analyse(
    {
      header: { sets: [set], unread: { folders: 0, files: 0 }, missingParts: [] },
      async *identities() {},
      async *rows() {
        yield* rows;
      },
    },
    { mostReexaminations },
  );
}

const day = (index: number): string => new Date(Date.UTC(2025, 0, 1 + index)).toISOString().slice(0, 10);

/** One visit a day. @param wand right and left offset, mm, of the visit */
function visits(
  assessor: string,
  count: number,
  wand: (index: number) => readonly [number, number],
  given: Partial<TrialRow> = {},
): TrialRow[] {
  return Array.from({ length: count }, (_, index) => {
    const [right, left] = wand(index);
    return madeRow({
      sha256: hashOf(index + 100_000 * assessor.charCodeAt(0)),
      subject: `${assessor}${index}`,
      assessor,
      visit_on: day(index),
      checks: [wandCheck('right', right), wandCheck('left', left)],
      ...given,
    });
  });
}

/** A hand that scatters about 0, each visit and side by its own. */
function scatter(seed: number, sd = 2.5) {
  const random = seededRandom(seed);
  return (shift: (index: number) => readonly [number, number]) => (index: number) =>
    [shift(index)[0] + random.bell(sd), shift(index)[1] + random.bell(sd)].map(
      (mm) => Math.round(mm * 1000) / 1000,
    ) as [number, number];
}

describe('habits and drifts', () => {
  it('nobody is named whose hand only scatters: 200 audits of three assessors', async () => {
    let named = 0;
    for (let seed = 1; seed <= 200; seed++) {
      const { findings } = await analysed(
        ['A', 'B', 'C'].flatMap((assessor, index) =>
          visits(
            assessor,
            60,
            scatter(seed * 10 + index)(() => [0, 0]),
          ),
        ),
      );
      named += findings.length;
    }
    expect(named).toBe(0);
  });

  it('both wands forward are one habit, with the size that was planted', async () => {
    const { findings } = await analysed([
      ...visits(
        'A',
        60,
        scatter(1)(() => [0, 0]),
      ),
      ...visits(
        'B',
        60,
        scatter(2)(() => [7, 7]),
      ),
    ]);
    expect(findings).toHaveLength(1);
    expect(findings[0]).toMatchObject({ kind: 'both-sides', assessor: 'B', side: 'both', visits: 60, limit: 9 });
    expect(findings[0]!.offset).toBeCloseTo(7, 0);
    expect(findings[0]!.interval[0]).toBeLessThan(7);
    expect(findings[0]!.interval[1]).toBeGreaterThan(7);
    expect(findings[0]!.says).toBe(
      'on average over 60 visits the right (and likewise the left) wand is 7 mm in front of its line',
    );
  });

  it('one wand forward is a habit of that side; wands turned apart are one of each', async () => {
    const one = await analysed(
      visits(
        'A',
        60,
        scatter(3)(() => [7, 0]),
      ),
    );
    expect(one.findings).toMatchObject([{ kind: 'one-side', side: 'right' }]);
    const apart = await analysed(
      visits(
        'A',
        60,
        scatter(4)(() => [7, -7]),
      ),
    );
    expect(apart.findings).toMatchObject([
      { kind: 'one-side', side: 'right' },
      { kind: 'one-side', side: 'left' },
    ]);
  });

  it('a hand that creeps is a drift, from the day on which its average left the limits for good', async () => {
    const { findings } = await analysed(
      visits(
        'A',
        90,
        scatter(5)((index) => (index < 30 ? [0, 0] : [8, 8])),
      ),
    );
    expect(findings).toMatchObject([{ kind: 'drift', assessor: 'A', side: 'both', versionsChanged: false }]);
    // Means of 20 visits of two hands that scatter by 2.5 mm: their difference has an SD of 0.56 mm.
    expect(Math.abs(findings[0]!.offset - 8)).toBeLessThan(3 * 0.56);
    expect([day(30), day(31), day(32)]).toContain(findings[0]!.since);
  });

  it('one gross error among the first visits does not set the limits of the rest', async () => {
    const drawn = scatter(6)(() => [0, 0]);
    const rows = visits('A', 60, (index) => (index === 2 ? [40, 40] : drawn(index)));
    const { charts, findings } = await analysed(rows);
    const both = charts.find(({ side }) => side === 'both')!;
    expect(both).toMatchObject({ baseline: 20, leftOut: 1 });
    expect(both.upper).toBeLessThan(8);
    expect(both.points[2]).toMatchObject({ isOutside: true });
    expect(findings).toEqual([]);
  });

  it('nothing is concluded from nine visits, nor from thirty captures of one', async () => {
    const few = await analysed(visits('A', 9, () => [12, 12]));
    expect(few.findings).toEqual([]);
    expect(few.charts).toEqual([]);
    expect(few.offsets.filter(({ by }) => by === 'assessor').every(({ isFew }) => isFew)).toBe(true);
    const captures = await analysed(visits('A', 30, () => [12, 12], { subject: 'P1', visit_on: '2025-01-01' }));
    expect(captures.scope).toMatchObject({ recordings: 30, visits: 1 });
    expect(captures.findings).toEqual([]);
  });

  it('what the session accepts is the patient and not the hand', async () => {
    const rows = visits('A', 60, () => [12, 12]).map((row) => ({
      ...row,
      checks: row.checks.map((check) => ({ ...check, status: 'accepted' as const })),
    }));
    expect((await analysed(rows)).findings).toEqual([]);
  });

  it('a change of the marker set is marked where it came, and told beside the drift', async () => {
    const rows = visits(
      'A',
      90,
      scatter(7)((index) => (index < 40 ? [0, 0] : [8, 8])),
    ).map((row, index) => (index < 40 ? row : { ...row, marker_set_version: '2.0.0' }));
    const { charts, findings, versions } = await analysed(rows);
    expect(charts[0]!.changes).toMatchObject([{ before: 40 }]);
    expect(charts[0]!.changes[0]!.says).toContain('our-lab 2.0.0');
    expect(findings[0]!.versionsChanged).toBe(true);
    expect(versions.map(({ version, recordings, firstDay }) => [version, recordings, firstDay])).toEqual([
      ['1.0.0', 40, day(0)],
      ['2.0.0', 50, day(40)],
    ]);
  });
});

describe('the audit as a whole', () => {
  it('is the same in whatever order the recordings come', async () => {
    const rows = [
      ...visits(
        'A',
        30,
        scatter(8)(() => [3, 0]),
      ),
      ...visits(
        'B',
        30,
        scatter(9)(() => [0, 11]),
      ),
      madeRow({ sha256: hashOf(7), assessor: null, visit_on: null, subject: null, verdict: 'adjust' }),
      madeRow({ sha256: hashOf(8), fault: 'Cut off.', verdict: 'not-assessable', has_session: false }),
    ];
    const once = JSON.stringify(await analysed(rows));
    await fc.assert(
      fc.asyncProperty(fc.shuffledSubarray(rows, { minLength: rows.length }), async (shuffled) => {
        expect(JSON.stringify(await analysed(shuffled))).toBe(once);
      }),
      { numRuns: 15 },
    );
  });

  it('counts what is missing, and leaves it out of charts and groups', async () => {
    const { missing, offsets, charts } = await analysed(
      visits('A', 20, () => [1, 1]).map((row, index) => (index < 5 ? { ...row, assessor: null, visit_on: null } : row)),
    );
    expect(missing).toMatchObject({ assessor: 5, day: 5, site: 0, session: 0 });
    expect(offsets.find(({ by, side }) => by === 'assessor' && side === 'right')!.visits).toBe(15);
    expect(charts[0]!.points).toHaveLength(15);
  });

  it('tells groups in the order of their codes, however they do', async () => {
    const { offsets } = await analysed([...visits('Z', 12, () => [9, 9]), ...visits('B', 12, () => [0, 0])]);
    const assessors = offsets.filter(({ by, side }) => by === 'assessor' && side === 'both');
    expect(assessors.map(({ group }) => group)).toEqual(['B', 'Z']);
  });

  it('gives mean, spread and 95 % intervals of a group as by hand', async () => {
    // 1 to 10: mean 5.5, SD 3.02765; t 2.262157, chi-square 19.022768 and 2.700389 (tables; from memory).
    const { offsets } = await analysed(visits('A', 10, (index) => [index + 1, 0]));
    const right = offsets.find(({ by, side }) => by === 'assessor' && side === 'right')!;
    expect(right.mean).toBeCloseTo(5.5, 9);
    expect(right.sd).toBeCloseTo(3.02765, 5);
    expect(right.meanInterval![0]).toBeCloseTo(5.5 - (2.262157 * 3.02765) / Math.sqrt(10), 4);
    expect(right.sdInterval![1]).toBeCloseTo(3.02765 * Math.sqrt(9 / 2.700389), 4);
  });
});

describe('trials to look at again', () => {
  it('stand the worst first, exchanged labels before all, with the reason; ready ones are not there', async () => {
    const bad = (number: number, right: number) =>
      madeRow({ sha256: hashOf(number), verdict: 'adjust', checks: [wandCheck('right', right)] });
    const swapped = madeRow({
      sha256: hashOf(4),
      verdict: 'adjust',
      problems: [{ code: 'labels-swapped', markers: ['R_LE', 'L_LE'] }],
    });
    const { reexamine } = await analysed([bad(1, 12), bad(2, -20), madeRow({ sha256: hashOf(3) }), swapped]);
    expect(reexamine.total).toBe(3);
    expect(reexamine.listed.map(({ trial, reason }) => [trial, reason])).toEqual([
      ['00000004', 'Labels are exchanged: R_LE, L_LE.'],
      ['00000002', 'The right wand is 20 mm behind its line (allowed 9 mm).'],
      ['00000001', 'The right wand is 12 mm in front of its line (allowed 9 mm).'],
    ]);
  });

  it('are all counted where only the worst are listed', async () => {
    const rows = Array.from({ length: 700 }, (_, index) =>
      madeRow({ sha256: hashOf(index), verdict: 'adjust', checks: [wandCheck('right', 10 + index / 100)] }),
    );
    const { reexamine } = await analysed(rows, 3);
    expect(reexamine.total).toBe(700);
    expect(reexamine.listed.map(({ trial }) => trial)).toEqual([699, 698, 697].map((n) => hashOf(n).slice(0, 8)));
  });
});
