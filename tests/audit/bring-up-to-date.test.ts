import { mkdtempSync, readFileSync, renameSync, rmSync, utimesSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it, vi } from 'vitest';
import { bringUpToDate } from '../../src/audit/bring-up-to-date.ts';
import { type AuditInputs, fingerprintOf } from '../../src/audit/check/audit-inputs.ts';
import type { AuditAnswer } from '../../src/audit/check/audit-tasks.ts';
import type { TrialPool } from '../../src/audit/check/trial-pool.ts';
import { openStore } from '../../src/audit/store/open-store.ts';
import type { Norms } from '../../src/core/decision/norms.ts';
import type { LoadedMarkerSet } from '../../src/core/marker-set/parse-marker-set.ts';
import { sha256Of } from '../../src/node/sha256.ts';

let folder: string;
let trial: string;
const longAgo = new Date('2025-01-01T00:00:00Z');
const nowMs = Date.parse('2025-06-01T12:00:00Z');
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  trial = join(folder, 'a.c3d');
  write('first');
});
afterEach(() => {
  vi.doUnmock('../../src/core/version.ts');
  rmSync(folder, { recursive: true, force: true });
});

function write(text: string, changed = longAgo, path = trial): void {
  writeFileSync(path, text);
  utimesSync(path, changed, changed);
}

const inputs = (markerSet = 'a', norms: object | null = null): AuditInputs => ({
  sets: [{ markerSet: { sha256: markerSet } as LoadedMarkerSet, norms: norms as Norms | null }],
});

/** Stands for the threads: hashes for real, and checks nothing. */
function countingPool() {
  const did: string[] = [];
  const hashOf = (path: string): string | null => {
    try {
      return sha256Of(readFileSync(path));
    } catch {
      return null;
    }
  };
  const pool: TrialPool = {
    async run(kind, paths, take) {
      for await (const path of paths) {
        did.push(kind);
        const answer: AuditAnswer = {
          sha256: hashOf(path),
          sessionSha256: hashOf(path.replace('.c3d', '.session.json')),
          result: kind === 'check' ? '{}' : null,
        };
        await take(path, answer);
      }
    },
    async close() {},
  };
  return { pool, did };
}

/** What a run does with the file: nothing, a hash, or a hash and a check. */
async function audit(given = inputs(), { rehash = false, atMs = nowMs } = {}, path = trial): Promise<string> {
  const store = openStore(join(folder, 'store'), { number: 1, of: 1 });
  const { pool, did } = countingPool();
  try {
    await bringUpToDate([{ path, below: 'a.c3d' }], given, store, pool, {
      rehash,
      now: () => atMs,
      signal: new AbortController().signal,
      onProgress: () => {},
    });
  } finally {
    store.close();
  }
  return did.join(', ') || 'nothing';
}

describe('a file that looks as it did', () => {
  it('is not read', async () => {
    expect(await audit()).toBe('check');
    expect(await audit()).toBe('nothing');
  });

  it('is hashed with --rehash, and checked where its content is another', async () => {
    await audit();
    write('other');
    expect(await audit()).toBe('nothing');
    expect(await audit(inputs(), { rehash: true })).toBe('hash, check');
    expect(await audit(inputs(), { rehash: true })).toBe('hash');
  });

  it('is hashed again where it was younger than two seconds when it was looked at', async () => {
    const changed = new Date(nowMs - 1900);
    write('first', changed);
    await audit();
    // The disk's clock may not have moved on between two writes.
    write('again', changed);
    expect(await audit()).toBe('hash, check');
    expect(await audit(inputs(), { atMs: nowMs + 200 })).toBe('hash');
    expect(await audit(inputs(), { atMs: nowMs + 400 })).toBe('nothing');
  });

  it('is hashed again where the session beside it was that young', async () => {
    const session = join(folder, 'a.session.json');
    write('{"of":1}', new Date(nowMs - 1900), session);
    await audit();
    write('{"of":2}', new Date(nowMs - 1900), session);
    expect(await audit()).toBe('hash, check');
  });

  it('and has a time to come, since a clock was wrong, is never trusted', async () => {
    write('first', new Date(nowMs + 3_600_000));
    await audit();
    expect(await audit()).toBe('hash');
    expect(await audit()).toBe('hash');
  });
});

describe('a file that looks otherwise is read again', () => {
  it.each<[string, () => void]>([
    ['with another size', () => write('first, and more')],
    ['with another time', () => write('other', new Date('2025-01-02T00:00:00Z'))],
    [
      'with another inode',
      () => {
        write('other', longAgo, `${trial}.new`);
        renameSync(`${trial}.new`, trial);
      },
    ],
    ['with a session that came', () => write('{}', longAgo, join(folder, 'a.session.json'))],
  ])('%s', async (_, change) => {
    await audit();
    change();
    expect(await audit()).toBe('hash, check');
    expect(await audit()).toBe('nothing');
  });

  it('and not checked where its content was met before, at this place or another', async () => {
    await audit();
    write('first', new Date('2025-01-02T00:00:00Z'));
    expect(await audit()).toBe('hash');
    renameSync(trial, join(folder, 'b.c3d'));
    expect(await audit(inputs(), {}, join(folder, 'b.c3d'))).toBe('hash');
  });
});

describe('a result is used for what it was made with alone', () => {
  it.each([
    ['marker set', inputs('b')],
    ['norms', inputs('a', { version: '1' })],
    ['order of marker sets', { sets: [...inputs('b').sets, ...inputs('a').sets] }],
  ])('another %s is another result, and the first is still known', async (_, other) => {
    await audit();
    expect(await audit(other)).toBe('hash, check');
    expect(await audit(other)).toBe('nothing');
    expect(await audit()).toBe('nothing');
  });

  it('another content of the norms under the same name is another result', async () => {
    await audit(inputs('a', { name: 'n', version: '1', spreads: [1] }));
    expect(await audit(inputs('a', { name: 'n', version: '1', spreads: [2] }))).toBe('hash, check');
  });

  it('another version of the program is another result', async () => {
    vi.resetModules();
    vi.doMock('../../src/core/version.ts', () => ({ toolVersion: '99.0.0' }));
    const later = await import('../../src/audit/check/audit-inputs.ts');
    expect(later.fingerprintOf(inputs())).not.toBe(fingerprintOf(inputs()));
  });
});
