import { describe, expect, it } from 'vitest';
import { displace } from '../../../sample-trials/plant-fault.ts';
import { formatOwnNorms } from '../../../src/audit/norms/format-own-norms.ts';
import { fewestPeople, makeOwnNorms } from '../../../src/audit/norms/make-own-norms.ts';
import type { RowSource } from '../../../src/audit/parts/part-file.ts';
import type { CheckRow, TrialRow } from '../../../src/audit/parts/trial-row.ts';
import { InputError } from '../../../src/node/input-error.ts';
import { markedPerson, norms, prior, session } from '../../core/own-norms/own-laboratory.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';
import { hashOf, madeRow } from '../make-row.ts';

const set = { ...wands22, sha256: norms.markerSet.sha256 };
const inputs = {
  set,
  base: norms,
  adult: symmetricAdult() as never,
  adultSession: session,
  name: 'ours',
  version: '2.0.0',
};

type Change = Parameters<typeof markedPerson>[1];

/** A recording of one person, as an audit keeps it: residuals at the person's own size, here that of the norms. */
function rowOf(seed: number, given: Partial<TrialRow> = {}, change?: Change): TrialRow {
  const { residuals } = markedPerson(seed, change);
  const checks = prior.rules.map(({ id }, index): CheckRow => {
    const rule = wands22.rules.find((one) => one.id === id)!;
    const residual = Number.isNaN(residuals[index]!) ? null : residuals[index]!;
    return {
      rule: id,
      side: rule.side,
      basis: rule.basis,
      unit: rule.unit,
      status: residual === null ? 'not-assessed' : 'pass',
      value: residual,
      expected: 0,
      limit: 9,
      uncertainty: 1,
      residual,
    };
  });
  return madeRow({
    sha256: hashOf(seed),
    subject: `P${seed}`,
    marker_set_sha256: set.sha256,
    body_height_mm: norms.bodyHeightMm,
    checks,
    ...given,
  });
}

const sourceOf = (rows: readonly TrialRow[]): RowSource => ({
  header: { sets: [], unread: { folders: 0, files: 0 }, missingParts: [] },
  async *identities() {},
  async *rows() {
    yield* rows;
  },
});
const rows = (count: number, given: Partial<TrialRow> = {}, change?: Change) =>
  Array.from({ length: count }, (_, index) => rowOf(400 + index, given, change));

describe("a laboratory's own norms from an audit", () => {
  it('rest on the latest recording of each person, and count what has no say', async () => {
    const good = rows(fewestPeople);
    const latest = rowOf(400, { visit_on: '2025-06-01', sha256: hashOf(7) });
    const { norms: made, gathered } = await makeOwnNorms(
      sourceOf([
        ...good,
        latest,
        rowOf(900, { subject: null }),
        rowOf(901, { facts: ['contracture.knee'] }),
        rowOf(902, { marker_set_sha256: 'e'.repeat(64) }),
        rowOf(903, { verdict: 'not-assessable' }),
        madeRow({ sha256: null, fault: 'it is no trial' }),
      ]),
      inputs,
    );
    expect(gathered.leftOut).toEqual({
      'same-person': 1,
      'no-subject': 1,
      facts: 1,
      'other-set': 1,
      'not-assessable': 1,
      unreadable: 1,
    });
    expect(made).toMatchObject({ name: 'ours', version: '2.0.0', people: fewestPeople, includesScatter: true });
    expect([gathered.firstDay, gathered.lastDay]).toEqual(['2025-01-01', '2025-06-01']);
  });

  it('scale millimetres to the body that the norms are for', async () => {
    const small = rows(fewestPeople).map((row) => ({
      ...row,
      body_height_mm: norms.bodyHeightMm / 2,
      checks: row.checks.map((check) => ({
        ...check,
        residual: check.residual === null ? null : check.unit === 'mm' ? check.residual / 2 : check.residual,
      })),
    }));
    const [whole, half] = await Promise.all(
      [rows(fewestPeople), small].map((one) => makeOwnNorms(sourceOf(one), inputs)),
    );
    half!.rules.forEach(({ sd }, index) => expect(sd).toBeCloseTo(whole!.rules[index]!.sd, 9));
  });

  it('are the same whatever the order of the recordings', async () => {
    const [one, other] = [rows(80), rows(80).reverse()];
    const made = await Promise.all([one, other].map((some) => makeOwnNorms(sourceOf(some), inputs)));
    expect(JSON.stringify(made[0]!.norms)).toBe(JSON.stringify(made[1]!.norms));
  });

  it('are refused for too few people, with the reasons in one sentence', async () => {
    const made = makeOwnNorms(sourceOf([...rows(fewestPeople - 1), rowOf(900, { subject: null })]), inputs);
    await expect(made).rejects.toThrow(InputError);
    await expect(made).rejects.toThrow(/found 59 people .* 1 without a subject code.* expected 60 or more/);
  });

  it('tell a target that everybody misses, with the limit, and do not learn it', async () => {
    const forward: Change = (positions) =>
      displace(displace(positions, 'R_TW', { forward: 12 }), 'L_TW', { forward: 12 });
    const own = await makeOwnNorms(sourceOf(rows(90, { assessor: 'CS' }, forward)), inputs);
    expect(own.shifted.map(({ rule }) => rule)).toContain('thigh-wand-in-line');
    const [found] = own.shifted.filter(({ rule }) => rule === 'thigh-wand-in-line');
    expect(found!.offset).toBeGreaterThan(8);
    expect(found!.interval[0]).toBeGreaterThan(3);
    for (const side of ['right', 'left']) {
      const at = own.norms.residuals.indexOf(`thigh-wand-in-line.${side}`);
      const before = norms.residuals.indexOf(`thigh-wand-in-line.${side}`);
      expect(own.norms.mean[at]).toBeCloseTo(norms.mean[before]!, 6);
    }
    const text = formatOwnNorms(own, { columns: 80, color: false });
    expect(text.replaceAll(/\s+/g, ' ')).toMatch(
      /misses a target of its protocol: told, and not learnt - On average over 90 people the tip of the right \(and likewise the left\) thigh wand is \d+ mm in front/,
    );
  });

  it('accuse nobody where hands only scatter', async () => {
    for (const from of [1000, 2000, 3000]) {
      const some = Array.from({ length: 80 }, (_, index) => rowOf(from + index));
      expect((await makeOwnNorms(sourceOf(some), inputs)).shifted).toEqual([]);
    }
  });

  it('fit the people they were made of better than those that ship', async () => {
    const { misfit } = await makeOwnNorms(sourceOf(rows(200)), inputs);
    expect(misfit!.people).toBe(200);
    expect(Math.abs(Math.log(misfit!.after))).toBeLessThan(Math.abs(Math.log(misfit!.before)));
  });
});
