import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { measuredMm } from '../../src/core/session/measured.ts';
import { parseSession } from '../../src/core/session/parse-session.ts';
import { type ReasonCode, reasonInWords } from '../../src/core/session/reasons.ts';
import { sessionMismatches } from '../../src/core/session/session-mismatches.ts';
import { parseChanged } from '../core/marker-set/changed-set.ts';

const read = (path: string) => readFileSync(new URL(`../../${path}`, import.meta.url), 'utf8');
const page = read('docs/session-file.md');
const [example, mistake] = [...page.matchAll(/```json\n([\s\S]*?)```/g)].map(([, json]) => json!);

describe('docs/session-file.md', () => {
  it('shows a session that is read, and that fits the shipped set', () => {
    const session = parseSession(example!);
    expect(measuredMm(session, 'legLength', 'left')).toBe(662);
    expect(measuredMm(session, 'stature', null)).toBe(1335);
    expect(measuredMm(session, 'kneeDiameter', 'right')).toBe(79);
    expect(session.facts.tibialTorsionDeg).toEqual({ right: 22, left: null });
    const set = parseChanged(() => {});
    expect(sessionMismatches(session, set)).toEqual([]);
    expect(session.confirmed).toEqual([
      { marker: 'R_LE', by: 'AC', on: '2026-03-02', reason: 'palpated again, on the bone' },
    ]);
    expect(session.confirmedRules[0]?.reason).toBe('the bone is built so: known from X-ray');
    for (const { id } of session.facts.variants) expect(set.variants.map((variant) => variant.id)).toContain(id);
  });

  it('shows every field of the format, and explains it', () => {
    const schema = JSON.parse(read('shared/schemas/session.schema.json'));
    const prose = page.replaceAll(/```[\s\S]*?```/g, '');
    const written = JSON.parse(example!);
    for (const field of Object.keys(schema.properties)) {
      if (field !== '$schema') expect(Object.keys(written)).toContain(field);
      expect(prose).toMatch(new RegExp(`\`${field.replace('$', '\\$')}[\`.]`));
    }
    expect(Object.keys(written.facts)).toEqual(Object.keys(schema.properties.facts.properties));
    for (const fact of Object.keys(schema.properties.facts.properties)) expect(prose).toContain(`\`${fact}\``);
    const reading = schema.properties.measurements.items.properties;
    for (const measure of schema.$defs.measure.enum) expect(prose).toContain(`\`${measure}\``);
    for (const word of [...Object.keys(reading), ...reading.instrument.enum, ...reading.posture.enum]) {
      expect(prose).toContain(`\`${word}\``);
    }
    for (const code of schema.$defs.reasonCode.enum) expect(prose).toContain(`| \`${code}\``);
  });

  it('tells the words of every reason code', () => {
    for (const [, code, words] of page.matchAll(/^\| `([a-z-]+)` +\| (\S.*?) +\|$/gm)) {
      if (!JSON.parse(read('shared/schemas/session.schema.json')).$defs.reasonCode.enum.includes(code)) continue;
      expect(reasonInWords({ reasonCode: code as ReasonCode })).toBe(words);
    }
  });

  it('tells what is really said of a mistake', () => {
    const output = /```text\n([\s\S]*?)```/.exec(page)![1]!.replaceAll(/\s+/g, ' ').trim();
    expect(() => parseSession(mistake!)).toThrow(output.replace('setsquare: session.json: ', ''));
    expect(output).toMatch(/^setsquare: session\.json: session, at .*\.$/);
  });
});
