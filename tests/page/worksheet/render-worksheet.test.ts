import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { parseSession } from '../../../src/core/session/parse-session.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { placementRows } from '../../../src/page/worksheet/placement-table.tsx';
import { renderWorksheet } from '../../../src/page/worksheet/render-worksheet.tsx';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';

const child = new URL('../../../sample-trials/child-well-placed.session.json', import.meta.url);
const said = (html: string): string =>
  html
    .replace(/<style>[\s\S]*?<\/style>/, '')
    .replaceAll(/<[^>]+>/g, ' ')
    .replaceAll(/\s+/g, ' ');

describe('the worksheet', () => {
  it.each([wands22, medial20])('of $name tells for every landmark how it is found and what confirms it', (set) => {
    const html = renderWorksheet(set, emptySession);
    const text = said(html);
    for (const { find, confirm, landmark } of set.markers) {
      for (const words of [find, confirm, landmark])
        expect(text).toContain(words.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll(/\s+/g, ' '));
    }
    for (const { title } of set.variants) expect(text).toContain(title);
    expect(text).toContain('Chaperone offered');
    expect(text).toContain('allergy');
    expect(text).toContain('Stop.');
  });

  it('has the landmarks in the order of the protocol, right and left on one row', () => {
    const rows = placementRows(wands22);
    expect(rows.map(([first]) => first!.stem)).toEqual([
      ...new Set(wands22.placementOrder.map((label) => label.replace(/^[RL]_/, ''))),
    ]);
    expect(rows.every((markers) => markers.length === (markers[0]!.side === 'midline' ? 1 : 2))).toBe(true);
  });

  it('fills in what the session holds, by instrument', () => {
    const text = said(renderWorksheet(wands22, parseSession(readFileSync(child, 'utf8'))));
    expect(text).toContain('Subject code MR-02');
    expect(text).toMatch(/Calliper knee diameter [^0-9]*71 mm 70 mm/);
    const instruments = ['Scales', 'Stadiometer', 'Pelvimeter', 'Two rulers', 'Calliper', 'Tape leg'];
    const places = instruments.map((name) => text.indexOf(` ${name} `));
    expect(places).toEqual(places.toSorted((a, b) => a - b));
  });

  it('escapes what a set says, runs nothing and asks for nothing', () => {
    const hostile = { ...wands22, title: '<script>alert(1)</script>' };
    const html = renderWorksheet(hostile, {
      ...emptySession,
      subject: { ...emptySession.subject, code: '"><img src=x>' },
    });
    expect(html).not.toMatch(/<script|<img|https?:/);
    expect(html).toContain("default-src 'none'");
  });
});
