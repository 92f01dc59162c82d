import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { readC3d } from '../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../src/core/c3d/read-points.ts';
import { writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../src/core/check-trial.ts';
import { parseMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { ruleKinds } from '../../src/core/rule-kinds/all-rule-kinds.ts';
import { parseSession } from '../../src/core/session/parse-session.ts';
import { emptySession } from '../../src/core/session/session.ts';
import { type Loose, refusalOfText, shippedText } from '../core/marker-set/changed-set.ts';

const page = readFileSync(new URL('../../docs/writing-a-marker-set.md', import.meta.url), 'utf8');
const schema = JSON.parse(
  readFileSync(new URL('../../shared/schemas/marker-set.schema.json', import.meta.url), 'utf8'),
);
/** Blocks of the page: what is done with them, what they hold, and the output that follows. */
const blocks = [
  ...page.matchAll(/<!-- ([a-z]+)(?:: ([a-zA-Z ]+))? -->\n\n```json\n([\s\S]*?)```(?:\n\n```text\n([\s\S]*?)```)?/g),
].map(([, does, list, json, output]) => ({ does: does!, list: list!, json: JSON.parse(json!), output }));

/** The set that the page arrives at. */
function ourLab(): Loose {
  const set = JSON.parse(shippedText());
  for (const { does, list, json } of structuredClone(blocks)) {
    if (list === 'model posture') set.model.posture = [...(set.model.posture ?? []), json];
    else if (does === 'add') set[list].push(json);
    else if (does === 'change') Object.assign(list === 'the set' ? set : entryOf(set[list], json), json);
  }
  return set;
}

function entryOf(list: Loose[], { label, id }: Loose): Loose {
  const entry = list.find((candidate) => candidate.label === label && candidate.id === id);
  expect(entry).toBeDefined();
  return entry;
}

const sample = readFileSync(new URL('../../sample-trials/adult-well-placed.c3d', import.meta.url));
const source = { path: 'trial.c3d', sha256: '' };

function relabelled(labels: Readonly<Record<string, string>>): Uint8Array {
  const trial = readC3d(sample);
  const { pointCount, frameCount, rateHz, units, firstFrame } = trial;
  const { values } = readPoints(trial);
  const own = trial.labels.map((label) => labels[label] ?? label);
  return writeC3d({ labels: own, pointCount, frameCount, rateHz, units, firstFrame, values });
}

describe('docs/writing-a-marker-set.md', () => {
  it('holds the blocks that it promises', () => {
    expect(blocks.map(({ does }) => does).sort()).toEqual([
      'add',
      'add',
      'add',
      'change',
      'change',
      'change',
      'change',
      'mistake',
      'mistake',
      'mistake',
      'session',
    ]);
  });

  it('arrives at a set that passes a check of files with other labels', () => {
    const set = parseMarkerSet(JSON.stringify(ourLab()), '');
    expect(set).toMatchObject({ name: 'our-lab', version: '1.0.0' });
    const trial = relabelled({ R_GT: 'NAME:Right_Trochanter', L_GT: 'left trochanter', S1: 'SACRUM' });
    const { verdict, rules, stance } = checkTrial(trial, set, emptySession, source);
    expect(verdict).toBe('ready');
    expect(rules.find(({ id }) => id === 'forefeet-level')?.status).toBe('pass');
    expect(stance?.measures.find(({ id }) => id === 'knee-in-valgus.left')?.status).toBe('pass');
    const shipped = checkTrial(trial, parseMarkerSet(shippedText(), ''), emptySession, source);
    expect(shipped.verdict).not.toBe('ready');
  });

  it('defines a variant that does what the page says, on its side', () => {
    const set = parseMarkerSet(JSON.stringify(ourLab()), '');
    const session = parseSession(JSON.stringify(blocks.find(({ does }) => does === 'session')!.json));
    const { rules } = checkTrial(sample, set, session, source);
    const told = Object.fromEntries(rules.map((rule) => [rule.id, rule]));
    for (const id of ['thigh-to-shank.left', 'knees-level']) {
      expect(told[id]).toMatchObject({ status: 'not-assessed', reason: 'recorded: knee in plaster' });
    }
    expect(told['thigh-to-shank.right']?.status).toBe('pass');
    expect(told['fibular-head-below.left']).toMatchObject({ range: [-10, 90] });
    expect(told['fibular-head-below.right']).toMatchObject({ range: [-8, 70] });
  });

  it.each(blocks.filter(({ does }) => does === 'mistake'))(
    'tells what is really said: $output',
    ({ list, json, output }) => {
      const set = ourLab();
      Object.assign(entryOf(set[list], json), json);
      const refusal = refusalOfText(JSON.stringify(set));
      expect(output!.replaceAll(/\s+/g, ' ').trim()).toBe(`setsquare: our-lab.json: ${refusal?.message}`);
    },
  );

  it('names every part of a set', () => {
    for (const part of Object.keys(schema.properties)) expect(page).toContain(`\`${part}\``);
  });

  it('says of every kind of rule what it measures', () => {
    const rows = Object.values(ruleKinds).map(({ kind, summary }) => `- \`${kind}\`: ${summary}`);
    const listed = /<!-- kinds of rule -->\n\n([\s\S]*?)\n\n/.exec(page)![1]!;
    expect(listed.split(/\n(?=- )/).map((row) => row.replaceAll(/\s+/g, ' '))).toEqual(rows);
  });

  it('names the limits that hold', () => {
    expect(page).toContain(
      'at most 100 markers, 300 rules, 60 virtual points, 40 segments, 20 views, 30 stance\nitems and 100 orders',
    );
  });
});
