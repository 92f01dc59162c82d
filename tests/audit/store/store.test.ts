import { appendFileSync, mkdtempSync, readFileSync, rmSync, statSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import fc from 'fast-check';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { FileIndex } from '../../../src/audit/store/file-index.ts';
import { LineFile } from '../../../src/audit/store/line-file.ts';
import { ResultJournal } from '../../../src/audit/store/result-journal.ts';
import { lockStore } from '../../../src/audit/store/store-lock.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const at = (name: string) => join(folder, name);
const key = (letter: string) => ({ sha256: letter.repeat(64), sessionSha256: null, fingerprint: '0'.repeat(16) });

function linesOf(path: string): string[] {
  const file = new LineFile(path);
  const lines: string[] = [];
  file.scan((line) => lines.push(line.toString('utf8')));
  file.close();
  return lines;
}

describe('a file of lines', () => {
  it('cut off anywhere keeps every whole line, and takes the next one after them', () => {
    const lines = ['first', 'zweite: ä', 'x'.repeat(3000)];
    const whole = lines.map((line) => `${line}\n`).join('');
    fc.assert(
      fc.property(fc.nat(Buffer.byteLength(whole)), (length) => {
        writeFileSync(at('lines'), whole);
        truncateSync(at('lines'), length);
        const kept = Buffer.from(whole).subarray(0, length).toString('utf8').split('\n').slice(0, -1);
        const file = new LineFile(at('lines'));
        file.scan(() => {});
        file.append('next');
        file.close();
        expect(linesOf(at('lines'))).toEqual([...kept, 'next']);
      }),
      { numRuns: 60 },
    );
  });

  it('gives lines back by their place, also over the edge of what is read at once', () => {
    const file = new LineFile(at('lines'));
    const written = Array.from({ length: 400 }, (_, index) => `${index} ${'ü'.repeat(3000)}`);
    const places = written.map((line) => file.append(line));
    file.close();
    const again = new LineFile(at('lines'));
    const found: { offset: number; length: number }[] = [];
    again.scan((_, place) => found.push(place));
    expect(found).toEqual(places);
    expect(places.map((place) => again.read(place))).toEqual(written);
    again.close();
  });
});

describe('the journal of results', () => {
  it('holds a result once, however often it is added', () => {
    const journal = new ResultJournal(at('results'));
    journal.add(key('a'), '{"verdict":"ready"}');
    journal.add(key('a'), '{"verdict":"adjust"}');
    journal.close();
    const again = new ResultJournal(at('results'));
    expect(again.size).toBe(1);
    expect(again.get(key('a'))).toEqual({ verdict: 'ready' });
    expect(again.has({ ...key('a'), fingerprint: '1'.repeat(16) })).toBe(false);
    expect(again.has({ ...key('a'), sessionSha256: 'b'.repeat(64) })).toBe(false);
    again.close();
  });

  it('passes over a line that was damaged, and takes its result again', () => {
    const journal = new ResultJournal(at('results'));
    journal.add(key('a'), '{"verdict":"ready"}');
    journal.close();
    writeFileSync(at('results'), readFileSync(at('results'), 'utf8').replace('{"key"', '\u0000\u0000key"'));
    const again = new ResultJournal(at('results'));
    expect(again.has(key('a'))).toBe(false);
    again.add(key('a'), '{"verdict":"ready"}');
    expect(again.get(key('a'))).toEqual({ verdict: 'ready' });
    again.close();
  });
});

describe('the index of files', () => {
  const look = { size: '10', mtimeNs: '1000000000000000000', inode: '7' };
  const changedMs = 1_000_000_000_000;
  const entry = { path: '/a.c3d', look, sessionLook: null, sha256: 'a'.repeat(64), sessionSha256: null };

  it.each([
    ['as it was', look, null, true],
    ['with another size', { ...look, size: '11' }, null, false],
    ['with another time', { ...look, mtimeNs: '1000000000000000001' }, null, false],
    ['with another inode', { ...look, inode: '8' }, null, false],
    ['with a session that came', look, look, false],
  ])('knows a file %s: %#', (_, now, sessionNow, isKnown) => {
    const index = new FileIndex(at('files'));
    index.set({ ...entry, seenAtMs: changedMs + 5000 });
    expect(index.find('/a.c3d', now, sessionNow) !== null).toBe(isKnown);
    index.close();
  });

  it('does not trust a file that was younger than two seconds when it was looked at', () => {
    const index = new FileIndex(at('files'));
    index.set({ ...entry, seenAtMs: changedMs + 1999 });
    expect(index.find('/a.c3d', look, null)).toBeNull();
    index.set({ ...entry, seenAtMs: changedMs + 2000 });
    expect(index.find('/a.c3d', look, null)).not.toBeNull();
    index.close();
  });

  it('forgets what was outdated once that is most of it', () => {
    const index = new FileIndex(at('files'));
    for (let time = 0; time < 1500; time++) index.set({ ...entry, seenAtMs: changedMs + 5000 + time });
    const grown = statSync(at('files')).size;
    index.close();
    expect(statSync(at('files')).size).toBeLessThan(grown / 1000);
    expect(FileIndex.entriesIn(at('files'))).toEqual([{ ...entry, seenAtMs: changedMs + 6499 }]);
  });

  it('passes over lines that are none of its own', () => {
    writeFileSync(at('files'), 'null\n{"path":1}\n{"path":"/b"}\nnot JSON\n');
    appendFileSync(at('files'), `${JSON.stringify({ ...entry, seenAtMs: 1 })}\n`);
    expect(FileIndex.entriesIn(at('files')).map(({ path }) => path)).toEqual(['/a.c3d']);
  });
});

describe('the lock of a store', () => {
  it('keeps a second audit out until the first gives it back', () => {
    const unlock = lockStore(at('lock'));
    expect(() => lockStore(at('lock'))).toThrow('Another audit is writing to this store');
    unlock();
    lockStore(at('lock'))();
  });

  it.each([
    ['was left by a process that is gone', JSON.stringify({ pid: 2 ** 22 + 1, host: 'HOST' })],
    ['was left half-written', ''],
    ['was left with half its text', '{"pid":'],
  ])('is taken over where it %s', async (_, text) => {
    const { hostname } = await import('node:os');
    writeFileSync(at('lock'), text.replace('HOST', hostname()));
    lockStore(at('lock'))();
  });

  it('of another machine stays', () => {
    writeFileSync(at('lock'), JSON.stringify({ pid: 2 ** 22 + 1, host: 'another-machine' }));
    expect(() => lockStore(at('lock'))).toThrow('delete the lock if no audit runs on any machine');
  });
});
