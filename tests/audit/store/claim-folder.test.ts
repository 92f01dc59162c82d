import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, truncateSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { claimFolder } from '../../../src/audit/store/claim-folder.ts';
import { InputError } from '../../../src/node/input-error.ts';

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

const mark = 'setsquare-audit-store.json';

describe('a folder that becomes a store', () => {
  it('is made and marked, and is the same store afterwards whatever lies in it', () => {
    const store = join(folder, 'new', 'store');
    claimFolder(store);
    expect(readdirSync(store)).toEqual([mark]);
    const written = readFileSync(join(store, mark), 'utf8');
    expect(JSON.parse(written)).toEqual({ format: 'setsquare-audit-store/1' });
    mkdirSync(join(store, 'parts'));
    claimFolder(store);
    expect(readFileSync(join(store, mark), 'utf8')).toBe(written);
  });

  it('is refused where somebody keeps other files in it, and nothing is written there', () => {
    writeFileSync(join(folder, 'thesis.docx'), 'x');
    expect(() => claimFolder(folder)).toThrow(InputError);
    expect(() => claimFolder(folder)).toThrow(/holds files already \(thesis\.docx\)/);
    expect(readdirSync(folder)).toEqual(['thesis.docx']);
  });

  it('is taken on where the mark was cut off at any byte, and refused where it is another one', () => {
    claimFolder(folder);
    const written = readFileSync(join(folder, mark), 'utf8');
    mkdirSync(join(folder, 'parts'));
    for (let length = 0; length < written.length; length++) {
      truncateSync(join(folder, mark), length);
      claimFolder(folder);
      expect(readFileSync(join(folder, mark), 'utf8')).toBe(written);
    }
    writeFileSync(join(folder, mark), '{"format":"setsquare-audit-store/2"}\n');
    expect(() => claimFolder(folder)).toThrow(/another version/);
  });

  it('is refused where a file has its name', () => {
    writeFileSync(join(folder, 'store'), '');
    expect(() => claimFolder(join(folder, 'store'))).toThrow(/file of that name, expected a folder/);
  });
});
