import { spawnSync } from 'node:child_process';
import { mkdtempSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const recorder = fileURLToPath(new URL('record-loaded-modules.cjs', import.meta.url));

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

/** Files and built-in modules that the command of the last build loads. */
function loadedBy(...argv: string[]): { files: string[]; builtIn: string[] } {
  const list = join(folder, 'loaded.json');
  const env = { ...process.env, LOADED_MODULES: list };
  const ran = spawnSync(process.execPath, ['--require', recorder, 'bin/setsquare.js', ...argv], { cwd: root, env });
  expect(ran.stderr.toString()).toBe('');
  const loaded: string[] = JSON.parse(readFileSync(list, 'utf8'));
  return {
    files: loaded.filter((name) => name.startsWith(root)).map((name) => name.slice(root.length)),
    builtIn: loaded.filter((name) => !name.startsWith(root)).sort(),
  };
}

const trial = 'sample-trials/wand-forward.c3d';
const always = ['bin/setsquare.js', 'dist/cli.cjs'];

// A patient stands and waits while the program starts: what is added here makes every check later.
describe('what a run loads', () => {
  it('one file for a check against a marker set that ships', () => {
    expect(loadedBy('check', trial)).toEqual({
      files: always,
      builtIn: ['node:crypto', 'node:events', 'node:fs', 'node:fs/promises', 'node:path', 'node:process', 'node:url'],
    });
  });

  it('one file for an inspection, for JSON and for help', () => {
    expect(loadedBy('inspect', trial).files).toEqual(always);
    expect(loadedBy('check', trial, '--format', 'json').files).toEqual(always);
    expect(loadedBy('help', 'check').files).toEqual(always);
  });

  it('what draws pages only for a page', () => {
    expect(loadedBy('check', trial, '--format', 'html').files).toEqual([...always, 'dist/render-report-page.cjs']);
  });

  it('the validator of sessions only for a session', () => {
    const session = 'sample-trials/child-well-placed.session.json';
    expect(loadedBy('check', 'sample-trials/child-well-placed.c3d', '--session', session).files).toEqual([
      ...always,
      'dist/parse-session.cjs',
    ]);
  });

  it('the validator of marker sets only for one that does not ship, be it by a blank', () => {
    const shipped = join(root, 'shared/marker-sets/lower-limb-wands-22.json');
    const copy = join(folder, 'copy.json');
    writeFileSync(copy, readFileSync(shipped));
    expect(loadedBy('check', trial, '--marker-set', copy).files).toEqual(always);
    writeFileSync(copy, `${readFileSync(shipped)}\n `);
    expect(loadedBy('check', trial, '--marker-set', copy).files).toEqual([...always, 'dist/parse-marker-set.cjs']);
  });
});

describe('what that one file is made of', () => {
  const sources: string[] = JSON.parse(readFileSync(join(root, 'dist/cli-sources.json'), 'utf8'));
  const places = new Set(sources.map((source) => /^(src\/(?:[^/.]+\/)+|node_modules\/[^/]+\/|[^/]+)/.exec(source)![0]));

  // src/core/schemas without its validators: the words for a name in a session that the marker set does not know.
  it('only what every check needs', () => {
    const core = [
      'c3d',
      'decision',
      'force-plates',
      'gait-model',
      'geometry',
      'labels',
      'marker-set',
      'measurements',
      'moves',
      'pose',
      'problems',
      'report',
    ];
    const allowed = [
      ...[...core, 'rule-kinds', 'rules', 'schemas', 'session', 'sheet-against-trial', 'trial'].map(
        (layer) => `src/core/${layer}/`,
      ),
      ...['', 'audit/', 'norms/', 'practice/', 'study/'].map((folder) => `src/cli/${folder}`),
      ...['src/core/', 'src/node/', 'node_modules/commander/', 'node_modules/gl-matrix/'],
      // The class of its errors alone, by which they are told apart.
      'src/core/study/',
      // The entry, and what stands in for node:child_process.
      ...['cli.js', 'no-other-programs:node:child_process'],
    ];
    expect([...places].filter((place) => !allowed.includes(place))).toEqual([]);
    expect(places).toContain('src/core/c3d/');
  });

  it('no validator, and no more than 300 KB', () => {
    const text = readFileSync(join(root, 'dist/cli.cjs'), 'utf8');
    expect(text).not.toContain('validateMarkerSet');
    expect(text).not.toContain('validateSession');
    expect(statSync(join(root, 'dist/cli.cjs')).size).toBeLessThan(300_000);
  });
});
