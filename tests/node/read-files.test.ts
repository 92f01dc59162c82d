import { execFileSync } from 'node:child_process';
import { mkdtempSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { readCapped } from '../../src/node/read-capped.ts';
import { readMarkerSetFile, shippedMarkerSets } from '../../src/node/read-marker-set-file.ts';
import { readTextFile } from '../../src/node/read-text-file.ts';
import { sha256Of } from '../../src/node/sha256.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

describe('readCapped', () => {
  it.each([0, 1, 65_535, 65_536, 65_537, 200_000])('reads %i bytes whole', async (size) => {
    const path = join(folder, 'file');
    const bytes = Uint8Array.from({ length: size }, (_, index) => (index * 31) % 251);
    writeFileSync(path, bytes);
    expect(sha256Of(await readCapped(path, 200_000, 'it'))).toBe(sha256Of(bytes));
  });

  it('refuses one byte more than the cap, and a file far larger without reading it', async () => {
    const path = join(folder, 'file');
    writeFileSync(path, 'x');
    for (const size of [(1 << 20) + 1, 2 ** 40]) {
      truncateSync(path, size);
      await expect(readCapped(path, 1 << 20, 'it')).rejects.toThrow(
        'Cannot read it: it holds more than 1 MB, the most that is read; check that it is the file you mean.',
      );
    }
  });

  it('reads a pipe, and stops at the cap of one that never ends', async () => {
    await expect(readCapped('/dev/zero', 1 << 20, 'it')).rejects.toThrow('more than 1 MB');
    const pipe = join(folder, 'pipe');
    execFileSync('mkfifo', [pipe]);
    const reading = readCapped(pipe, 1 << 20, 'it');
    writeFileSync(pipe, 'from a pipe');
    expect(new TextDecoder().decode(await reading)).toBe('from a pipe');
  });

  it('says what is wrong with a path without repeating it', async () => {
    const path = join(folder, 'Anna Example', 'none');
    const error = await readCapped(path, 1, 'the trial').catch((caught: unknown) => caught as Error);
    expect(String(error)).not.toContain('Anna');
    await expect(readCapped('a\u0000b', 1, 'the trial')).rejects.toThrow('no file name can hold');
  });
});

describe('readTextFile', () => {
  it('gives the text without its byte order mark and the hash of the bytes with it', async () => {
    const path = join(folder, 'file.json');
    writeFileSync(path, '\ufeff{"a": "é"}');
    expect(await readTextFile(path, 'it')).toEqual({
      text: '{"a": "é"}',
      sha256: sha256Of(new TextEncoder().encode('\ufeff{"a": "é"}')),
    });
  });

  // Source: FIPS 180-2, appendix B.1.
  it('hashes as the standard does', () => {
    expect(sha256Of(new TextEncoder().encode('abc'))).toBe(
      'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
    );
  });
});

describe('readMarkerSetFile', () => {
  it('finds by name what ships', async () => {
    expect(await shippedMarkerSets()).toContain('lower-limb-wands-22');
    expect(JSON.parse((await readMarkerSetFile('lower-limb-wands-22')).text).name).toBe('lower-limb-wands-22');
  });

  it('takes what has a slash or ends in .json for a path', async () => {
    const path = join(folder, 'mine.json');
    writeFileSync(path, '{}');
    expect((await readMarkerSetFile(path)).text).toBe('{}');
    await expect(readMarkerSetFile('lower-limb-wands-22.json')).rejects.toThrow('no such file');
  });

  it.each(['none', '__proto__', '..', 'lower-limb-wands-22\u0000'])(
    'names those that ship where there is no %j',
    async (name) => {
      await expect(readMarkerSetFile(name)).rejects.toThrow(/expected one of .*lower-limb-wands-22/);
    },
  );
});
