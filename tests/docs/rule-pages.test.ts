import { existsSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { drawRuleFigure } from '../../scripts/draw-rule-figure.ts';
import { readRulePage, rulePageUrl, sayExample } from '../../scripts/read-rule-page.ts';
import { ruleKinds } from '../../src/core/rule-kinds/all-rule-kinds.ts';

const kinds = Object.keys(ruleKinds);
const headings = [
  'What it measures',
  'Formula',
  'A worked number',
  'Drawing',
  'In a marker set',
  'When it is not assessed',
  'Source',
];

describe.each(kinds)('docs/rules/%s.md', (kind) => {
  it('has the headings of every page, in their order', () => {
    expect(readRulePage(kind).headings.slice(1)).toEqual(headings);
  });

  it('shows a rule of its own kind, which a marker set accepts', () => {
    // Reading the page puts the rule into the set that ships, and parses that as any laboratory's file.
    expect(readRulePage(kind).rule.kind).toBe(kind);
  });

  it('states the number that its own table and rule come to', () => {
    const page = readRulePage(kind);
    expect(page.description.value).not.toBeNaN();
    expect(page.text).toContain(sayExample(page));
  });

  it('lists no point that the rule does not use', () => {
    const page = readRulePage(kind);
    const { points } = ruleKinds[page.rule.kind].needs(page.rule);
    expect(new Set(page.points.keys())).toEqual(new Set(points));
  });

  it('shows the drawing of its own example, up to date', () => {
    const page = readRulePage(kind);
    expect(page.text).toContain(`](${kind}.svg)`);
    expect(readFileSync(rulePageUrl(kind, 'svg'), 'utf8'), 'run npx tsx scripts/draw-rule-figures.ts').toBe(
      drawRuleFigure(page),
    );
  });
});

describe('the pages together', () => {
  it('make links that lead somewhere', () => {
    for (const kind of kinds) {
      const links = readRulePage(kind).text.matchAll(/\]\(([^)]+)\)/g);
      for (const [, link] of links) expect(existsSync(new URL(link!, rulePageUrl(kind, 'md'))), link).toBe(true);
    }
  });

  it('show passing, borderline and failing examples', () => {
    expect(new Set(kinds.map((kind) => readRulePage(kind).judgement))).toEqual(new Set(['pass', 'borderline', 'fail']));
  });
});
