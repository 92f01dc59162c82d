import { describe, expect, it } from 'vitest';
import { drawPlan, drawStored, makeSession } from '../../../src/core/practice/draw-session.ts';
import { PracticeRun } from '../../../src/core/practice/practice-run.ts';
import type { PracticeTrial } from '../../../src/core/practice/practice-trial.ts';
import { seededDraw } from '../../../src/core/practice/seeded-draw.ts';
import { showTrial } from '../../../src/core/practice/shown-trial.ts';
import { begunSession, workshop } from '../../support/practice-workshop.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const session = makeSession(workshop, 11, 12, () => 1);

describe('makeSession', () => {
  it('is the same for the same seed, and another for another', () => {
    const ids = (trials: readonly PracticeTrial[]) => trials.map(({ key, report }) => [key, report.markers]);
    expect(ids(makeSession(workshop, 11, 12, () => 1))).toEqual(ids(session));
    expect(ids(makeSession(workshop, 12, 12, () => 1))).not.toEqual(ids(session));
  });

  it('holds about half with nothing to move, and one fault in each of the others', () => {
    const clean = session.filter(({ key }) => key.expected.length === 0).length;
    expect([5, 6, 7]).toContain(clean);
    for (const { key } of session) expect(key.expected.length).toBeLessThan(2);
  });

  it('plants what the page on practice says: 12 to 26 mm by eye, 20 to 48 mm palpated', () => {
    for (const { key } of session) {
      for (const { accepted } of key.expected) {
        const [{ marker, shift }] = accepted;
        const mm = Math.hypot(shift.forward, shift.left, shift.up);
        const byEye = wands22.markers.find(({ label }) => label === marker)!.placedBy === 'eye';
        const [least, most] = byEye ? [12, 26] : [20, 48];
        expect(mm).toBeGreaterThan(least - 0.01);
        expect(mm).toBeLessThan(most + 0.01);
      }
    }
  });

  it('practises a landmark the more the more it weighs', () => {
    const heels = makeSession(workshop, 5, 12, (stem) => (stem === 'HEEL' ? 1 : 0));
    const off = heels.flatMap(({ key }) => key.expected.map(({ accepted: [{ marker }] }) => marker));
    expect(off.length).toBeGreaterThan(4);
    for (const marker of off) expect(marker).toMatch(/^[RL]_HEEL$/);
  });
});

describe('what is shown before the verdict', () => {
  const shownOf = (trial: PracticeTrial) =>
    showTrial(new PracticeRun({ set: wands22, trials: [trial], begun: begunSession(11, 12), before: [] }, () => {}))!;

  it('holds where markers are and how they are joined, and not one thing besides', () => {
    for (const trial of session) {
      const shown = shownOf(trial);
      expect(Object.keys(shown).sort()).toEqual(['choices', 'figure', 'number', 'of']);
      expect(Object.keys(shown.figure).sort()).toEqual(['figure', 'markers']);
      for (const marker of Object.values(shown.figure.markers)) {
        expect(Object.keys(marker).sort()).toEqual(['called', 'mm', 'sdMm', 'side', 'visible']);
        expect([marker.sdMm, marker.visible]).toEqual([0, 1]);
      }
    }
  });

  it('is the same whatever was found: the same figure with another report and key is shown alike', () => {
    const faulty = session.find(({ key }) => key.expected.length > 0)!;
    const innocent: PracticeTrial = {
      id: 'another',
      key: { basis: 'planted', expected: [], unseen: [] },
      report: { ...faulty.report, moves: [], rules: [], verdict: 'ready', problems: [] },
    };
    expect(JSON.stringify(shownOf(innocent))).toBe(JSON.stringify(shownOf(faulty)));
  });

  it('lists the same markers in the same order for every made trial', () => {
    const lists = session.map((trial) =>
      shownOf(trial)
        .choices.map(({ marker }) => marker)
        .join(),
    );
    expect(new Set(lists).size).toBe(1);
  });
});

describe('drawPlan', () => {
  it('is not always half: nobody can count on it', () => {
    const clean = Array.from({ length: 60 }, (_, seed) => drawPlan(8, seededDraw(seed)).filter(Boolean).length);
    expect([...new Set(clean)].sort()).toEqual([3, 4, 5]);
  });
});

describe('drawStored', () => {
  it('takes each once, and what there is where one sort runs out', () => {
    const clean = session.filter(({ key }) => key.expected.length === 0);
    const drawn = drawStored(
      [...clean, ...session.filter(({ key }) => key.expected.length > 0).slice(0, 1)],
      3,
      8,
      () => 1,
      () => 'HEEL',
    );
    expect(new Set(drawn.map(({ id }) => id)).size).toBe(drawn.length);
    expect(drawn.length).toBe(Math.min(8, clean.length + 1));
  });
});
