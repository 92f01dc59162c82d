import { copyFileSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { fingerprintOf } from '../../../src/audit/check/audit-inputs.ts';
import { checkOneTrial } from '../../../src/audit/check/check-one-trial.ts';
import { chooseMarkerSet } from '../../../src/audit/check/choose-marker-set.ts';
import { readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../../src/core/c3d/read-points.ts';
import { writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { type LoadedMarkerSet, parseMarkerSet } from '../../../src/core/marker-set/parse-marker-set.ts';

const root = new URL('../../../', import.meta.url);
const setText = (name: string) => readFileSync(new URL(`shared/marker-sets/${name}.json`, root), 'utf8');
const wands = parseMarkerSet(setText('lower-limb-wands-22'), 'a'.repeat(64));
const medial = parseMarkerSet(setText('lower-limb-medial-20'), 'b'.repeat(64));
const sample = new URL('sample-trials/adult-well-placed.c3d', root);

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const check = (path: string, ...sets: LoadedMarkerSet[]) =>
  checkOneTrial(path, { sets: sets.map((markerSet) => ({ markerSet, norms: null })) }).result;

describe('one trial of an audit', () => {
  it('tells who, when and where from the parameters that the marker set names, codes only', () => {
    const recordedIn = { assessor: 'trial:assessor', site: 'TRIAL:SITE', on: 'TRIAL:DAY', subject: 'SUBJECT:CODE' };
    const set = parseMarkerSet(
      JSON.stringify({ ...JSON.parse(setText('lower-limb-wands-22')), recordedIn }),
      'c'.repeat(64),
    );
    const opened = readC3d(readFileSync(sample));
    const { pointCount, frameCount, rateHz, units, firstFrame, labels } = opened;
    const group = (name: string, values: Record<string, string>) => ({
      name,
      description: '',
      parameters: new Map(
        Object.entries(values).map(([key, text]) => [
          key,
          { name: key, description: '', type: 'char' as const, dimensions: [text.length], values: [text] },
        ]),
      ),
    });
    const groups = [
      group('TRIAL', { ASSESSOR: 'AC', SITE: 'MR  ', DAY: '20260302' }),
      group('SUBJECT', { CODE: 'Jane Doe' }),
    ];
    const { values } = readPoints(opened);
    const bytes = writeC3d({ labels, pointCount, frameCount, rateHz, units, firstFrame, values, groups });
    writeFileSync(join(folder, 'a.c3d'), bytes);
    const { recorded } = check(join(folder, 'a.c3d'), set);
    // What holds a space is a name and no code.
    expect(recorded).toEqual({ assessor: 'AC', site: 'MR', on: '2026-03-02', subject: null });
    const unmapped = check(join(folder, 'a.c3d'), wands);
    expect(unmapped.recorded.assessor).toBeNull();
  });

  it('reads the session beside it, and is checked without where that is refused', () => {
    const path = join(folder, 'a.C3D');
    copyFileSync(sample, path);
    const session = (text: string) => writeFileSync(join(folder, 'a.session.json'), text);
    expect(check(path, wands)).toMatchObject({ session: null, sessionSha256: null, sessionFault: null });
    session(
      '{"format":"setsquare-session/1","subject":{"code":"P1","ageYears":9},"visit":{"assessor":"AC","on":"2026-03-02"},"facts":{"contractures":[{"joint":"knee","side":"left","angleDeg":10}]}}',
    );
    expect(check(path, wands).session).toMatchObject({
      subject: 'P1',
      ageYears: 9,
      assessor: 'AC',
      on: '2026-03-02',
      facts: ['contracture.knee'],
    });
    session('{"format":"setsquare-session/1","subject":{"code":"Jane Doe"}}');
    const refused = check(path, wands);
    expect(refused).toMatchObject({ session: null, verdict: 'ready', sessionFault: 'it is refused at /subject/code' });
    expect(refused.sessionSha256).toMatch(/^[0-9a-f]{64}$/);
  });

  it.each([
    ['is not there', 'none.c3d', null, ''],
    ['is empty', 'empty.c3d', '', /^[0-9a-f]{64}$/],
    ['is no C3D file', 'text.c3d', 'no trial at all\n'.repeat(100), /^[0-9a-f]{64}$/],
  ])('that %s is a result that says so', (_, name, content, sha256) => {
    if (content !== null) writeFileSync(join(folder, name), content);
    const result = check(join(folder, name), wands);
    expect(result.verdict).toBe('not-assessable');
    expect(result.fault).toMatch(/\.$/);
    expect(result.fault).not.toContain(folder);
    expect(result.sha256).toEqual(sha256 === '' ? '' : expect.stringMatching(sha256));
  });
});

describe('the marker set of a trial', () => {
  it('is the one whose required markers are there, else the first', () => {
    const candidates = [{ markerSet: medial }, { markerSet: wands }];
    const required = (set: LoadedMarkerSet) =>
      set.markers.filter(({ presence }) => presence === 'required').map(({ label }) => label);
    for (const candidate of candidates) {
      const labels = required(candidate.markerSet);
      expect(chooseMarkerSet(candidates, labels, labels.length)).toBe(candidate);
    }
    expect(chooseMarkerSet(candidates, ['nothing', 'known'], 2)).toBe(candidates[0]);
    // A second set that fits no better does not take its place.
    expect(chooseMarkerSet([candidates[1]!, { markerSet: wands }], required(wands), 100)).toBe(candidates[1]);
  });
});

describe('the fingerprint of what trials are checked against', () => {
  it('changes with every set, with the norms, and with the order that settles a tie', () => {
    const of = (...sets: LoadedMarkerSet[]) =>
      fingerprintOf({ sets: sets.map((markerSet) => ({ markerSet, norms: null })) });
    expect(new Set([of(wands), of(medial), of(wands, medial), of(medial, wands)]).size).toBe(4);
    expect(of(wands)).toBe(of({ ...wands }));
    expect(of(wands)).toMatch(/^[0-9a-f]{16}$/);
  });
});
