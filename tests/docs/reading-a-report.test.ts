import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';

const read = (path: string): string => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
const page = read('docs/reading-a-report.md');
const schema = JSON.parse(read('shared/schemas/report.schema.json'));

describe('docs/reading-a-report.md', () => {
  it('names every field that a report has at its top', () => {
    const fields = page.slice(page.indexOf('## Fields of the JSON report'));
    expect(
      Object.keys(schema.properties).filter((field) => !fields.includes(`\`${field}\``) && field !== 'trial'),
    ).toEqual([]);
    expect(fields).toContain('`trial.window`');
  });

  it('says what each status of a rule means', () => {
    const union = /export type RuleStatus =([^;]+);/.exec(read('src/core/report/report.ts'))![1]!;
    const statuses = [...union.matchAll(/'([a-z-]+)'/g)].map((match) => match[1]!.replace('-', ' '));
    expect(statuses.length).toBeGreaterThan(4);
    for (const status of statuses) expect(page).toMatch(new RegExp(`^\\| ${status} +\\| \\S`, 'm'));
  });
});
