import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { emptyState } from '../../src/browser/page-state.ts';
import { type DroppedFile, readDropped } from '../../src/browser/read-dropped.ts';

const sample = (name: string) => readFileSync(new URL(`../../sample-trials/${name}`, import.meta.url));
const set = readFileSync(new URL('../../shared/marker-sets/lower-limb-medial-20.json', import.meta.url));

const file = (name: string, bytes: Uint8Array | string, changes: Partial<DroppedFile> = {}): DroppedFile => {
  const buffer = Buffer.from(bytes);
  return {
    name,
    size: buffer.length,
    text: async () => buffer.toString('utf8'),
    arrayBuffer: async () => Uint8Array.from(buffer).buffer,
    ...changes,
  };
};

describe('readDropped', () => {
  it('takes a trial, a marker set and a session for what they are, in any order and under any name', async () => {
    const state = await readDropped(
      [
        file('a.json', sample('child-well-placed.session.json')),
        file('standing', sample('child-well-placed.c3d')),
        file('B.JSON', set),
      ],
      emptyState,
    );
    expect(state.trial?.bytes).toEqual(new Uint8Array(sample('child-well-placed.c3d')));
    expect(state.session?.name).toBe('a.json');
    expect(state.markerSet).toEqual({ name: 'B.JSON', text: set.toString('utf8') });
    expect(state.faults).toEqual([]);
  });

  it('says of each file that it cannot take why, and keeps what it had', async () => {
    const before = { ...emptyState, session: { name: 's.json', text: '{}' } };
    const state = await readDropped(
      [
        file('report.json', '{"format": "setsquare-report/1"}'),
        file('broken.json', '{'),
        file('null.json', 'null'),
        file('huge.c3d', '', { size: 2e9 }),
        file('folder', '', { arrayBuffer: () => Promise.reject(new Error('not a file')) }),
      ],
      before,
    );
    expect(state.faults.map((fault) => fault.split(':')[0])).toEqual([
      'report.json',
      'broken.json',
      'null.json',
      'huge.c3d',
      'folder',
    ]);
    expect(state.session).toEqual(before.session);
    expect(state.trial).toBeNull();
  });

  it('forgets the faults of the files before', async () => {
    const state = await readDropped([file('x.c3d', 'x')], { ...emptyState, faults: ['old'] });
    expect(state.faults).toEqual([]);
  });
});
