import { chmodSync, mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { filesFrom, readFileList } from '../../../src/audit/find/files-from.ts';
import { findTrials } from '../../../src/audit/find/find-trials.ts';
import { fallsTo } from '../../../src/audit/find/share-of-files.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  mkdirSync(join(folder, 'a/b'), { recursive: true });
  for (const name of ['a/b/one.c3d', 'a/TWO.C3D', 'a/notes.txt', 'three.c3d']) writeFileSync(join(folder, name), '');
});
afterEach(() => {
  chmodSync(join(folder, 'a'), 0o755);
  rmSync(folder, { recursive: true, force: true });
});

const { signal } = new AbortController();
const below = async (...folders: string[]) => (await findTrials(folders, signal)).files.map((file) => file.below);

describe('the trials below a folder', () => {
  it('are found in the order of their paths, whatever the letter case of the ending', async () => {
    expect(await below(folder)).toEqual(['a/TWO.C3D', 'a/b/one.c3d', 'three.c3d']);
  });

  it('are found once, though links lead round in circles and a folder is named twice', async () => {
    symlinkSync(folder, join(folder, 'a/b/round'));
    symlinkSync(join(folder, 'a'), join(folder, 'z'));
    expect(await below(folder, join(folder, 'a'))).toEqual(['a/TWO.C3D', 'a/b/one.c3d', 'three.c3d']);
  });

  it('are found through a link, and a link to nowhere is passed over', async () => {
    const other = mkdtempSync(join(tmpdir(), 'setsquare-'));
    writeFileSync(join(other, 'four.c3d'), '');
    symlinkSync(other, join(folder, 'other'));
    symlinkSync('/nowhere/at/all.c3d', join(folder, 'gone.c3d'));
    expect(await below(folder)).toContain('other/four.c3d');
    expect(await below(folder)).not.toContain('gone.c3d');
    rmSync(other, { recursive: true });
  });

  it.each([
    ['that is not there', 'nowhere', 'there is no such file or folder'],
    ['that is a file', 'three.c3d', 'expected a folder'],
  ])('are refused of a folder %s', async (_, name, found) => {
    await expect(findTrials([join(folder, name)], signal)).rejects.toThrow(found);
  });

  it('are looked for no longer once it was stopped', async () => {
    await expect(findTrials([folder], AbortSignal.abort())).rejects.toThrow();
  });
});

describe('a list of files', () => {
  it('holds each path once, ended by line breaks or by NUL', async () => {
    expect(filesFrom('a.c3d\r\nb c.c3d\n\na.c3d\n').map(({ path }) => path)).toEqual(['a.c3d', 'b c.c3d']);
    expect(filesFrom('a\nb.c3d\0c.c3d\0').map(({ path }) => path)).toEqual(['a\nb.c3d', 'c.c3d']);
  });

  it('may come through a pipe, in pieces that cut a letter in two', async () => {
    const bytes = new TextEncoder().encode('müller.c3d\n');
    async function* pieces() {
      yield bytes.subarray(0, 2);
      yield bytes.subarray(2);
    }
    expect(await readFileList('-', pieces())).toBe('müller.c3d\n');
  });
});

describe('shares of the files', () => {
  it('take every file once, whatever else there is', () => {
    const files = Array.from({ length: 200 }, (_, index) => `a/${index}.c3d`);
    const shares = [1, 2, 3].map((number) => files.filter((file) => fallsTo({ number, of: 3 }, file)));
    expect(shares.flat().sort()).toEqual([...files].sort());
    for (const share of shares) expect(share.length).toBeGreaterThan(40);
  });
});
