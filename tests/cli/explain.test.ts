import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { allTopics, findTopics } from '../../src/cli/explain/all-topics.ts';
import { docsPage } from '../../src/cli/explain/docs-page.ts';
import { c3dWarningMeanings } from '../../src/core/c3d/c3d-warnings.ts';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { ruleKinds } from '../../src/core/rule-kinds/all-rule-kinds.ts';
import { runInProcess } from './run-in-process.ts';

const root = new URL('../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');
const setFile = (name: string) => read(`shared/marker-sets/${name}.json`);
const sets = ['lower-limb-wands-22', 'lower-limb-medial-20'].map((name) => parseMarkerSet(setFile(name), ''));

async function explain(...argv: string[]): Promise<string> {
  const { code, stdout, stderr } = await runInProcess(['explain', ...argv]);
  expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
  return stdout;
}

/** A set that ships with some rules as they are written here, so that no change of a limit changes what is expected. */
const ourRules: Record<string, object> = {
  'heel-level': {
    id: 'heel-level',
    sided: true,
    title: 'Heel marker level with the outer forefoot marker',
    kind: 'line-parallel-to-floor',
    unit: 'mm',
    from: '@HEEL',
    to: '@MET5',
    allowed: { target: 0, limit: 8 },
    borderline: 3,
    basis: 'construction',
    spans: 'segment',
    mayMove: ['@HEEL'],
    shiftedBy: [
      { fact: 'heelRaiseMm', factor: 1, widen: 0.2 },
      { fact: 'heelSoleDifferenceMm', factor: 1, widen: 0.2 },
    ],
    saysAbove: 'the {side} heel marker sits {off} too high against the outer forefoot marker',
    saysBelow: 'the {side} heel marker sits {off} too low against the outer forefoot marker',
    why: 'Ankle flexion is read from this line: about 3.2 degrees for every 10 mm.',
    seen: 'from the side, at floor level',
    source:
      'construction of the protocol, limit from hand and eye (common practice); 3.2 degrees per 10 mm derived for an adult foot',
  },
  'thigh-wand-stands-off': { allowed: { range: [15, null] }, borderline: 5 },
  'thigh-to-shank': { allowed: { range: [0.78, 1.16] }, borderline: 0.05 },
  'thigh-wand-hip-plane': { unit: 'deg', allowedTurn: { targetDeg: -2.5, limitDeg: 13 }, borderline: 3 },
  'thigh-wand-in-line': { unit: 'mm', allowedTurn: { targetDeg: 0, limitDeg: 5 }, borderline: 2 },
  'foot-turned-out': { allowed: { range: [-20, 66] }, borderline: 14 },
};
let folder: string;
let ours: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  ours = join(folder, 'ours.json');
  const written = JSON.parse(setFile('lower-limb-wands-22'));
  const rules = written.rules.map((rule: { id: string }) => ({ ...rule, ...ourRules[rule.id] }));
  writeFileSync(ours, JSON.stringify({ ...written, name: 'ours', version: '2.0.0', rules }));
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

/** Printed text on one line, for whoever looks for a sentence that was broken to fit. */
const joined = (text: string) => text.replaceAll(/\s+/g, ' ');

describe('a rule', () => {
  it('is explained with all that its marker set says, for both sides', async () => {
    expect(
      await explain('heel-level', '--marker-set', ours),
    ).toBe(`Heel marker level with the outer forefoot marker (heel-level)
  Rule of:   ours 2.0.0, as heel-level.right and heel-level.left
  Kind:      line-parallel-to-floor. How much higher the first point lies than
             the second, in mm, or the slope of the line between them in
             degrees; positive when the first is higher.
  Basis:     construction: the limit is what hand and eye can do when one marker
             is placed by others
  Allowed:   -8 to 8 mm, borderline outside -5 to 5 mm
             A recorded heelRaiseMm moves that by as much and widens the limit
             by 0.2 of it.
             A recorded heelSoleDifferenceMm moves that by as much and widens
             the limit by 0.2 of it.
  Says:      The right or left heel marker sits N mm too high against the outer
             forefoot marker.
  or:        The right or left heel marker sits N mm too low against the outer
             forefoot marker.
  Why:       Ankle flexion is read from this line: about 3.2 degrees for every
             10 mm.
  Look:      From the side, at floor level.
  May move:  Heel marker (R_HEEL, L_HEEL).
  Suspended: While the session records heel off the floor, unless heelRaiseMm is
             recorded; shod or braced, unless heelSoleDifferenceMm is recorded.
  Source:    Construction of the protocol, limit from hand and eye (common
             practice); 3.2 degrees per 10 mm derived for an adult foot.

How it is measured: setsquare explain line-parallel-to-floor
`);
  });

  it('of one side speaks of that side', async () => {
    const text = joined(await explain('asis-level'));
    expect(text).toContain('May move: Right ASIS marker (R_ASIS); left ASIS marker (L_ASIS).');
    expect(text).toContain('First: Stand again where the stance explains it: Knee, seen from the side.');
    const left = joined(await explain('heel-level.left', '--marker-set', ours));
    expect(left).toContain('The left heel marker sits N mm too low');
    expect(left).toContain('May move: Left heel marker (L_HEEL).');
    expect(left).not.toContain('right');
  });

  it.each([
    ['thigh-wand-stands-off', 'at least 15 mm, borderline below 20 mm'],
    ['thigh-to-shank', '0.78 to 1.16, borderline outside 0.83 to 1.11'],
    ['thigh-wand-hip-plane', 'A turn about the bone of -15.5 to 10.5 deg, borderline outside -12.5 to 7.5 deg.'],
    ['thigh-wand-in-line', 'A turn about the bone of -5 to 5 deg, borderline outside -3 to 3 deg; in mm the limit'],
    ['foot-turned-out', '-20 to 66 deg, borderline outside -6 to 52 deg'],
  ])('%s says what is allowed: %s', async (rule, allowed) => {
    expect(joined(await explain(rule, '--marker-set', ours))).toContain(`Allowed: ${allowed}`);
  });

  it('of every set that ships is explained by its own texts, whole', async () => {
    for (const set of sets) {
      const topics = await allTopics(set);
      for (const rule of set.rules) {
        const [topic, ...others] = findTopics(topics, rule.id);
        expect(others).toEqual([]);
        const printed = joined(await explain(rule.id, '--marker-set', set.name));
        expect(topic!.word).toBe(rule.id);
        for (const text of [rule.title, rule.why, rule.kind, rule.source.slice(1), rule.seen.slice(1)]) {
          expect(printed).toContain(joined(text).replace(/[.;,]+$/, ''));
        }
        for (const label of rule.mayMove) expect(printed).toContain(`(${label})`);
      }
    }
  });
});

describe('a marker', () => {
  it('is explained with how it is found, what confirms it, and how well it is placed', async () => {
    const printed = await explain('R_GT');
    expect(printed).toMatch(/^right trochanter marker \(R_GT\)\n/);
    const text = joined(printed);
    expect(text).toContain('Landmark: Greater trochanter.');
    expect(text).toContain('Find: Flat hand on the side of the hip: the widest bony point');
    expect(text).toContain('Confirm: It rolls under the fingers while the leg is turned in and out.');
    expect(text).toContain('Precision: 12 mm forward, 12 mm up, 3 mm outward (1 SD of placing it again).');
    expect(text).toContain('Source: Facts as published: about 15 to 20 mm within or between operators');
  });

  it('is found however its label is written, and by what the laboratory calls it', async () => {
    const written = JSON.parse(setFile('lower-limb-wands-22'));
    const marker = written.markers.find((one: { label: string }) => one.label === 'GT');
    marker.aliases = { right: ['Right Trochanter'], left: ['Left Trochanter'] };
    const topics = await allTopics(parseMarkerSet(JSON.stringify(written), ''));
    const words = (word: string) => findTopics(topics, word).map((topic) => topic.word);
    expect(words('right trochanter')).toEqual(['R_GT']);
    expect(words('r gt')).toEqual(['R_GT']);
    expect(words('gt')).toEqual(['GT']);
  });
});

describe('a kind of rule', () => {
  it.each(Object.keys(ruleKinds))('%s is explained by its page, at 80 columns', async (kind) => {
    const printed = await explain(kind);
    const page = read(`docs/rules/${kind}.md`);
    for (const [, heading] of page.matchAll(/^## (.*)$/gm)) {
      if (heading !== 'Drawing') expect(printed).toContain(`\n\n${heading}\n\n`);
    }
    const [, says] = /^## What it measures\n\n(.*)$/m.exec(page)!;
    expect(joined(printed)).toContain(says!.replaceAll('`', ''));
    expect(printed).not.toMatch(/[`*]|\]\(|^\|/m);
    expect(Math.max(...printed.split('\n').map((line) => line.length))).toBeLessThanOrEqual(80);
  });

  it('keeps the indentation of its example, and the figures of its table under each other', async () => {
    const printed = await explain('order-along-axis');
    expect(printed).toContain('\n  {\n    "id": "trochanter-below",\n');
    expect(printed).toContain('  point   forward  left   up\n  R_ASIS        0  -129  982\n');
  });
});

describe('a code', () => {
  const problems = [...read('docs/problems.md').matchAll(/^\| `([a-z-]+)` *\| ([^|]+?) *\| ([^|]+?) *\|$/gm)];

  it('of a problem says what it means and what to do, as its page does', async () => {
    expect(problems.length).toBeGreaterThan(10);
    for (const [, code, meaning, remedy] of problems) {
      const text = joined(await explain(code!));
      expect(text).toContain(`${code} Meaning: ${meaning!.replaceAll('`', '')} To do: ${remedy!.replaceAll('`', '')}`);
    }
  });

  it('of a C3D warning says what stands beside the reader', async () => {
    for (const [code, meaning] of Object.entries(c3dWarningMeanings)) {
      expect(joined(await explain(code))).toMatch(new RegExp(`^${code} Meaning: .* To do: [A-Z].*\\. $`));
      expect(joined(await explain(code))).toContain(`Meaning: ${meaning} To do:`);
    }
  });

  it('may be a word of the report', async () => {
    expect(await explain('not-assessed')).toBe(
      'not assessed\n  Meaning:   Could not be judged; the reason stands beside it and it is counted.\n',
    );
  });
});

describe('a page that is not there', () => {
  it('is told in one sentence, not as a fault of the program', async () => {
    await expect(docsPage('rules/__proto__.md')).rejects.toThrow(
      'Cannot read docs/rules/__proto__.md: there is no such file or folder; it comes with setsquare, so install that again.',
    );
  });
});

describe('explain alone', () => {
  it('lists words, and every word it lists is explained and means one thing', async () => {
    const list = await explain();
    expect(list).toMatch(/^What can be explained, such as: setsquare explain heel-level\n/);
    const words = list
      .split('\n\n')
      .slice(1)
      .flatMap((group) => joined(group.slice(group.indexOf('\n'))).split(','));
    expect(words.length).toBeGreaterThan(100);
    const topics = await allTopics(sets[0]!);
    for (const word of words) expect(findTopics(topics, word.trim()), word).toHaveLength(1);
  });
});

describe('an unknown word', () => {
  it.each([
    ['heal-level', 'Nothing that can be explained is called "heal-level"; perhaps heel-level'],
    [
      'wand',
      'perhaps thigh-wand-in-line, shank-wand-in-line or thigh-wand-hip-plane is meant; setsquare explain lists',
    ],
    ['qqqqqqqqqqqqqqqqqqqqqq', 'is called "qqqqqqqqqqqqqqqqqqqqqq"; setsquare explain lists all.'],
    ['', 'Nothing that can be explained is called ""; setsquare explain lists all.'],
    ['__proto__', 'Nothing that can be explained is called "__proto__"; setsquare explain lists all.'],
    ['\u001b[31m', 'Nothing that can be explained is called "\\u001b[31m"'],
    [
      'R_MET2',
      'R_MET2 is not in lower-limb-wands-22, it is in lower-limb-medial-20; add --marker-set lower-limb-medial-20',
    ],
  ])('%j gets one sentence, and exit code 2', async (word, sentence) => {
    const { code, stdout, stderr } = await runInProcess(['explain', word]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain(sentence);
    expect(stderr).toMatch(/^setsquare: [^\n]*\.\n$/);
  });

  it('of any kind is never a fault of the program', async () => {
    const topics = await allTopics(sets[0]!);
    await fc.assert(
      fc.asyncProperty(fc.string({ maxLength: 200, unit: 'binary' }), async (word) => {
        if (findTopics(topics, word).length > 0 || word.startsWith('-')) return;
        const { code, stderr } = await runInProcess(['explain', word]);
        expect(code).toBe(2);
        expect(stderr).toMatch(/^setsquare: [^\n]{1,600}\n$/);
        expect(stderr).not.toContain('fault of the program');
      }),
      { numRuns: 20 },
    );
  });
});

describe('with a marker set of one’s own', () => {
  it('explains its rules, and its label beside a word of the program', async () => {
    const path = join(folder, 'our-lab.json');
    const written = JSON.parse(setFile('lower-limb-wands-22'));
    written.rules[0].why = 'Because we say so.';
    const neck = written.markers.find((one: { label: string }) => one.label === 'C7');
    neck.aliases = ['borderline'];
    writeFileSync(path, JSON.stringify(written));
    expect(await explain('heel-level', '--marker-set', path)).toContain('Why:       Because we say so.');
    const both = await explain('borderline', '--marker-set', path);
    expect(both).toMatch(/^neck marker \(C7\)\n[\s\S]*\n\n\nborderline\n {2}Meaning:/);
  });

  it('says what is wrong with it, and in which file', async () => {
    const path = join(folder, 'broken.json');
    writeFileSync(path, '{ "format": "setsquare-marker-set/1" }');
    const { code, stdout, stderr } = await runInProcess(['explain', 'heel-level', '--marker-set', path]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toMatch(/^setsquare: broken\.json: marker set: found no "name", [^\n]*\n$/);
  });
});
