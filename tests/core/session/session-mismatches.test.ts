import { describe, expect, it } from 'vitest';
import { emptySession } from '../../../src/core/session/session.ts';
import { sessionMismatches } from '../../../src/core/session/session-mismatches.ts';
import { parseChanged } from '../marker-set/changed-set.ts';

const set = parseChanged(({ marker }) => {
  marker('S1').aliases = ['Sacrum'];
});
const by = 'AC';
const on = '2026-03-02';
const accepting = (rule: string) => ({ ...emptySession, accepted: [{ rule, reason: 'Shoe', by, on }] });
const confirming = (marker: string) => ({ ...emptySession, confirmed: [{ marker, by, on }] });
const waives = 'which is not in this marker set, so nothing was waived';
const counts = 'which is not in this marker set, so it counts for none';

describe('sessionMismatches', () => {
  it('says nothing where rules and markers are known', () => {
    expect(sessionMismatches(emptySession, set)).toEqual([]);
    expect(sessionMismatches(accepting('heel-level.left'), set)).toEqual([]);
    expect(sessionMismatches(accepting('asis-level'), set)).toEqual([]);
    expect(sessionMismatches(confirming('R_LE'), set)).toEqual([]);
  });

  it.each([
    ['heel-level', `"heel-level", ${waives}; write "heel-level.right" or "heel-level.left".`],
    ['heel-levl.left', `"heel-levl.left", ${waives}; perhaps "heel-level.left" is meant.`],
    ['asis-level.right', `"asis-level.right", ${waives}; perhaps "asis-level" is meant.`],
    ['nothing-of-the-kind-here', `"nothing-of-the-kind-here", ${waives}.`],
    ['__proto__', `"__proto__", ${waives}.`],
    ['\u001b[2J', `"\\u001b[2J", ${waives}.`],
  ])('an accepted rule %j', (rule, rest) => {
    expect(sessionMismatches(accepting(rule), set)).toEqual([`The session accepts the rule ${rest}`]);
  });

  it.each([
    ['LE', `"LE", ${counts}; write "R_LE" or "L_LE".`],
    ['R LE', `"R LE", ${counts}; perhaps "R_LE" is meant.`],
    ['Sacrum', `"Sacrum", ${counts}; write its label, "S1".`],
    ['constructor', `"constructor", ${counts}.`],
  ])('a confirmed marker %j', (marker, rest) => {
    expect(sessionMismatches(confirming(marker), set)).toEqual([`The session confirms the marker ${rest}`]);
  });

  it('tells each, in the order of the session', () => {
    const session = { ...emptySession, ...accepting('no-such-rule-at-all'), confirmed: confirming('LE').confirmed };
    expect(sessionMismatches(session, set).map((sentence) => sentence.split(' ')[2])).toEqual(['accepts', 'confirms']);
  });
});
