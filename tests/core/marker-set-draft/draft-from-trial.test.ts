import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { buildAnotherLab } from '../../../sample-trials/build-samples.ts';
import { writeC3d } from '../../../src/core/c3d/write-c3d.ts';
import { checkTrial } from '../../../src/core/check-trial.ts';
import { inspectTrial } from '../../../src/core/inspect-trial.ts';
import { parseMarkerSet } from '../../../src/core/marker-set/parse-marker-set.ts';
import { draftFromTrial } from '../../../src/core/marker-set-draft/draft-from-trial.ts';
import type { BaseSet } from '../../../src/core/marker-set-draft/draft-marker-set.ts';
import { emptySession } from '../../../src/core/session/session.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { stillContents } from '../../support/still-trial.ts';

const bases: BaseSet[] = [wands22, medial20].map((set) => ({
  set,
  written: JSON.parse(readFileSync(new URL(`../../../shared/marker-sets/${set.name}.json`, import.meta.url), 'utf8')),
}));
const anotherLab = buildAnotherLab();
const draft = draftFromTrial(inspectTrial(anotherLab.bytes, 'standing.c3d'), bases, 'our-lab');

describe("a marker set drafted from another laboratory's trial", () => {
  it('has its labels as aliases of the right markers', () => {
    expect(draft.after).toBe('lower-limb-wands-22');
    const set = parseMarkerSet(JSON.stringify(draft.markerSet), '0'.repeat(64));
    expect(set.name).toBe('our-lab');
    for (const [marker, label] of anotherLab.labelOf) {
      expect(set.markers.find((one) => one.label === marker)!.aliases, marker).toEqual([label]);
    }
  });

  it('gives the report that the shipped set gives under its own labels', () => {
    const set = parseMarkerSet(JSON.stringify(draft.markerSet), '0'.repeat(64));
    const source = { path: 'standing.c3d', sha256: '' };
    const own = checkTrial(anotherLab.bytes, set, emptySession, source);
    const sample = readFileSync(new URL('../../../sample-trials/adult-well-placed.c3d', import.meta.url));
    const shipped = checkTrial(new Uint8Array(sample), wands22, emptySession, source);
    expect(own.verdict).toBe('ready');
    expect(own.rules.map(({ id, value }) => [id, value])).toEqual(
      shipped.rules.filter(({ id }) => own.rules.some((rule) => rule.id === id)).map(({ id, value }) => [id, value]),
    );
    expect(own.rules.length).toBe(shipped.rules.length);
  });

  it('leaves out rules that could never be judged, and makes markers optional that were not found', () => {
    const person = symmetricAdult();
    const labels = medial20.markers.map(({ label }) => label).filter((label) => !/_(ME|MM|PSIS)$/.test(label));
    const on = new Map(labels.map((label) => [label, person.get(label)!]));
    const bytes = writeC3d(stillContents(on, { set: medial20, frames: 60 }));
    const { markerSet, after } = draftFromTrial(inspectTrial(bytes, 'x.c3d'), bases, 'our-lab');
    expect(after).toBe('lower-limb-medial-20');
    const set = parseMarkerSet(JSON.stringify(markerSet), '0'.repeat(64));
    const report = checkTrial(bytes, set, emptySession, { path: 'x.c3d', sha256: '' });
    expect(report.coverage.assessed).toBe(report.coverage.rules);
    expect(report.coverage.rules).toBeLessThan(medial20.rules.length);
    expect(report.problems).toEqual([]);
    // Labels that are the set's own need no alias.
    expect(set.markers.every(({ aliases }) => aliases.length === 0)).toBe(true);
  });
});
