import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { accuracyPage, type Measured } from '../../scripts/accuracy-page.ts';
import { accuracyPictures } from '../../scripts/draw-accuracy.ts';
import { directionsOf } from '../accuracy/faults.ts';
import { percent } from '../accuracy/shares.ts';
import { wands22 } from '../support/shipped-marker-sets.ts';

const docs = new URL('../../docs/', import.meta.url);
const measured: Measured = JSON.parse(readFileSync(new URL('../accuracy/measured.json', import.meta.url), 'utf8'));
const { run, summary } = measured;
const page = readFileSync(new URL('accuracy.md', docs), 'utf8');
const directions = directionsOf(wands22);

/** A table is the same however wide its columns are set. */
const plain = (text: string) => text.replace(/-{3,}/g, '---').replace(/ {2,}/g, ' ').trim();

describe('the page about accuracy', () => {
  it('shows what the last run found, whole', () => {
    const tables = /<!-- accuracy -->([\s\S]*)<!-- end of accuracy -->/.exec(page)![1]!;
    expect(plain(tables)).toBe(plain(accuracyPage(measured, directions)));
  });

  it('has its pictures as the run drew them, each with a title and a description', () => {
    for (const [name, picture] of Object.entries(accuracyPictures(summary, directions))) {
      expect(existsSync(new URL(name, docs)), name).toBe(true);
      expect(readFileSync(new URL(name, docs), 'utf8'), name).toBe(picture);
      expect(picture).toMatch(/<title id="title">[^<]{20,}<\/title>\n<desc id="says">[^<]{40,}<\/desc>/);
      expect(page).toContain(`](${name})`);
    }
  });

  it('rests on another seed than that of development, and on 2,000 people a row', () => {
    expect(run.seed).not.toBe(1);
    expect(run.people * run.populations).toBeGreaterThanOrEqual(2000);
  });

  it('says what is so', () => {
    const { kinds, rows, falseAlarms, sure, patients } = summary;
    // "A marker set by eye is found from 15 mm on in more than nine of ten."
    for (const { how, sizeMm, flagged, rightWay } of kinds) {
      if (how === 'by-eye' && sizeMm >= 15) expect(percent(flagged)).toBeGreaterThan(90);
      // "Where the right marker is named, the way is nearly always right", from 20 mm on, where it is named at all.
      if (sizeMm >= 20 && rightWay.n > 100) expect(percent(rightWay)).toBeGreaterThan(95);
    }
    expect(percent(sure.rightWay)).toBeGreaterThan(99);
    // "False alarms stay at the aimed 5 % for a careful hand only."
    expect(percent(falseAlarms[0]!)).toBeLessThanOrEqual(5);
    expect(percent(falseAlarms[1]!)).toBeGreaterThan(5);
    expect(percent(falseAlarms[2]!)).toBeGreaterThan(5);
    // "The oracle is well ahead with a careful hand. With a hand as published it is not."
    const ahead = (hand: number) => {
      const own = rows.filter((row) => row.hand === hand);
      return own.reduce((sum, row) => sum + percent(row.oracleFlagged) - percent(row.flagged), 0) / own.length;
    };
    expect(ahead(0)).toBeGreaterThan(10);
    expect(Math.abs(ahead(2))).toBeLessThan(5);
    // "A probability of 50 % and more comes true within 5 points, but for the bin from 80 %, which is 6 points too sure.
    // Below ..., up to 27 points; under 10 %: nine of ten wrong."
    const off = summary.bins.map(({ from, meanSaid, right }) => ({ from, points: percent(right) - 100 * meanSaid }));
    for (const { from, points } of off) {
      if (from === 0.8) expect(Math.round(points)).toBe(-6);
      else if (from >= 0.5) expect(Math.abs(points)).toBeLessThan(5.5);
      else expect(points).toBeGreaterThan(5);
    }
    expect(Math.round(Math.max(...off.map(({ points }) => points)))).toBe(27);
    expect(percent(summary.bins[0]!.right)).toBeCloseTo(10, 0);
    // "A trochanter marker 40 mm off with its wand set on it": forward or back.
    directions.forEach(({ landmark, slide, before }, index) => {
      if (landmark !== 'GT' || slide !== 0 || !before) return;
      const cell = summary.cells.find(({ direction, sizeMm }) => direction === index && sizeMm === 40)!;
      expect(percent(cell.flagged)).toBeLessThan(10.5);
      expect(percent(cell.oracleFirst)).toBeGreaterThan(90);
    });
    // "A fact that is not recorded costs more than any fault."
    for (const kind of [1, 2]) {
      const [without, with_] = patients.filter((row) => row.kind === kind);
      expect(percent(without!.flagged)).toBeGreaterThan(75);
      expect(percent(with_!.flagged)).toBeLessThan(percent(without!.flagged) / 2);
    }
  });
});
