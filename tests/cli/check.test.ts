import { createHash } from 'node:crypto';
import {
  chmodSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  statSync,
  symlinkSync,
  writeFileSync,
} from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import { buildMove } from '../core/report/build-report.ts';
import { plannedEngine } from './planned-engine.ts';
import { runInProcess } from './run-in-process.ts';

const plans = {
  ready: { verdict: 'ready' },
  adjust: { verdict: 'adjust', moves: [buildMove()] },
  'not assessable': { verdict: 'not-assessable' },
  undecodable: {
    verdict: 'not-assessable',
    problems: [
      {
        code: 'file-unreadable',
        severity: 'error',
        markers: [],
        message: 'Not readable as C3D at byte 1.',
        remedy: 'Export it again.',
      },
    ],
  },
  faulty: () => {
    throw new Error('a bug \u001b[31m');
  },
} as const;

let folder: string;
let markerSet: string;

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  markerSet = file('our-lab.json', '{}');
});
afterEach(() => rmSync(folder, { recursive: true, force: true }));

function file(name: string, content: string): string {
  const path = join(folder, name);
  writeFileSync(path, content);
  return path;
}

/** Runs `check` with a marker set that the planned engine accepts. */
function check(argv: readonly string[], surroundings: Parameters<typeof runInProcess>[1] = {}) {
  const { engine } = plannedEngine(plans);
  return runInProcess(['check', '--marker-set', markerSet, ...argv], { engine, ...surroundings });
}

/** One sentence: no line break but the last, no stack trace. */
function expectOneSentence(stderr: string) {
  expect(stderr).toMatch(/^setsquare: [^\n]+\.\n$/);
  expect(stderr).not.toMatch(/\bat .*\.[jt]s:\d/);
}

describe('exit codes', () => {
  it.each([
    [['ready'], 0],
    [['adjust'], 1],
    [['not assessable'], 2],
    [['undecodable'], 2],
    [['faulty'], 2],
    [['ready', 'adjust'], 1],
    [['adjust', 'ready'], 1],
    [['not assessable', 'adjust', 'ready'], 2],
    [['adjust', 'undecodable', 'ready'], 2],
  ])('%j exits %i', async (contents, code) => {
    const trials = contents.map((content, index) => file(`${index}.c3d`, content));
    expect((await check(trials)).code).toBe(code);
  });

  it('is 2 for a missing file, with a report that says why', async () => {
    const path = join(folder, 'none.c3d');
    const { code, stdout, stderr } = await check([path, '--format', 'json']);
    expect(code).toBe(2);
    const report = JSON.parse(stdout);
    expect(report).toMatchObject({
      verdict: 'not-assessable',
      trial: { path, sha256: '' },
      problems: [
        {
          code: 'file-unreadable',
          message: 'Cannot read the trial: there is no such file or folder.',
          remedy: 'Check the name and the folder.',
        },
      ],
    });
    expect(stderr).toBe(
      'setsquare: none.c3d: Cannot read the trial: there is no such file or folder; check the name and the folder.\n',
    );
  });

  it('is 2 for a folder', async () => {
    const { code, stderr } = await check([folder]);
    expect(code).toBe(2);
    expect(stderr).toContain('it is a folder; name a file.');
  });

  it.each([
    [
      'a marker set with a fault',
      () => ['--marker-set', file('w.json', 'wrong')],
      'w.json: at /rules/3: expected a number above 0; correct it.',
    ],
    [
      'a missing marker set',
      () => ['--marker-set', './none.json'],
      'Cannot read marker set none.json: there is no such file or folder; check the name and the folder.',
    ],
    [
      'a marker set over 1 MB',
      () => ['--marker-set', file('big.json', ' '.repeat(1_048_577))],
      'Cannot read marker set big.json: it holds more than 1 MB, the most that is read; check that it is the file you mean.',
    ],
    [
      'a session with a fault',
      () => ['--session', file('s.json', 'wrong')],
      's.json: session: /facts is "x", expected an object.',
    ],
    [
      'a missing session',
      () => ['--session', './none.json'],
      'Cannot read session none.json: there is no such file or folder; check the name and the folder.',
    ],
    [
      'an unknown option',
      () => ['--formt', 'json'],
      "unknown option '--formt' (Did you mean --format?); setsquare --help shows how.",
    ],
    ['an unknown format', () => ['--format', 'xml'], '--format is "xml", expected text, json, jsonl, html or note.'],
    [
      'frames that are none',
      () => ['--frames', '12'],
      '--frames is "12", expected the first and the last frame such as 12-212; correct it or leave it out.',
    ],
    [
      'frames back to front',
      () => ['--frames', '212-12'],
      '--frames is "212-12", expected the first and the last frame such as 12-212; correct it or leave it out.',
    ],
    [
      'an empty output',
      () => ['--output', ''],
      '--output is empty, expected a name or a path; give one or leave it out.',
    ],
    [
      'an option without its value',
      () => ['--session'],
      "option '--session <FILE>' argument missing; setsquare --help shows how.",
    ],
  ])('is 2 and there is no report for %s', async (_, options, sentence) => {
    const { code, stdout, stderr } = await check([file('t.c3d', 'ready'), ...options()]);
    expect({ code, stdout, stderr }).toEqual({ code: 2, stdout: '', stderr: `setsquare: ${sentence}\n` });
  });

  it('is 2 for a session that is not UTF-8', async () => {
    const path = join(folder, 'latin.json');
    writeFileSync(path, Uint8Array.of(0x22, 0xe9, 0x22));
    const { code, stderr } = await check([file('t.c3d', 'ready'), '--session', path]);
    expect(code).toBe(2);
    expect(stderr).toBe('setsquare: Cannot read session latin.json: it is not text in UTF-8; save it as UTF-8.\n');
  });

  it('is 2 for no trial and for an unknown command, in one sentence', async () => {
    for (const argv of [['check'], ['chek', 'x.c3d']]) {
      const { code, stdout, stderr } = await runInProcess(argv);
      expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
      expectOneSentence(stderr);
    }
  });

  it('is 2 with the help on standard error when no command is given', async () => {
    const { code, stdout, stderr } = await runInProcess([]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    expect(stderr).toContain('Usage: setsquare');
  });

  it('is 130 when Ctrl-C is pressed, and later trials are left', async () => {
    let press = () => {};
    const result = await check([file('a.c3d', 'ready'), file('b.c3d', 'adjust')], {
      onSigint: (listener) => {
        press = listener;
      },
      onWrite: () => {
        press();
        return undefined;
      },
    });
    expect(result.code).toBe(130);
    expect(result.stdout).toContain('a.c3d');
    expect(result.stdout).not.toContain('b.c3d');
    expect(result.stderr).toBe('');
  });

  it('is 0 for help and version, on standard output', async () => {
    for (const argv of [['--help'], ['check', '--help'], ['help', 'check'], ['--version']]) {
      const { code, stdout, stderr } = await runInProcess(argv);
      expect({ code, stderr }).toEqual({ code: 0, stderr: '' });
      expect(stdout).not.toBe('');
    }
  });
});

describe('one trial that cannot be checked', () => {
  it('has its paragraph among the notes for the reader, one a trial', async () => {
    const trials = [file('one.c3d', 'ready'), file('two.c3d', 'not assessable')];
    const { stdout } = await check([...trials, '--format', 'note']);
    const paragraphs = stdout.trimEnd().split('\n\n');
    expect(paragraphs).toHaveLength(2);
    expect(paragraphs[0]).toMatch(/^Marker placement in the static trial of .*: nothing was found/);
    expect(paragraphs[1]).toContain('This trial cannot be judged');
  });

  it('never stops the rest, and has its line in jsonl', async () => {
    const trials = [file('a.c3d', 'ready'), join(folder, 'none.c3d'), file('c.c3d', 'faulty'), file('d.c3d', 'adjust')];
    const { code, stdout, stderr } = await check([...trials, '--format', 'jsonl']);
    expect(code).toBe(2);
    const lines = stdout
      .trimEnd()
      .split('\n')
      .map((line) => JSON.parse(line));
    expect(lines.map((line) => line.trial.path)).toEqual(trials);
    expect(lines.map((line) => line.verdict)).toEqual(['ready', 'not-assessable', 'not-assessable', 'adjust']);
    expect(lines[2].problems[0].message).toContain('fault of the program: a bug');
    expect(stderr.trimEnd().split('\n')).toHaveLength(2);
    expect(stderr).not.toContain('\u001b');
  });

  it('shows where a program fault arose with --debug only', async () => {
    const trial = file('a.c3d', 'faulty');
    expect((await check([trial])).stderr).not.toContain('planned-engine');
    expect((await check([trial, '--debug'])).stderr).toContain('planned-engine');
  });

  it('keeps its hash when its bytes could be read', async () => {
    const { stdout } = await check([file('a.c3d', 'faulty'), '--format', 'json']);
    expect(JSON.parse(stdout).trial.sha256).toBe(createHash('sha256').update('faulty').digest('hex'));
  });
});

describe('what the engine is asked', () => {
  it('gets marker set, session, frames, and the hash of the bytes', async () => {
    const { engine, asked } = plannedEngine(plans);
    const trial = file('a.c3d', 'ready');
    const session = file('session.json', '\ufeffP-9');
    const { stdout } = await runInProcess(
      ['check', trial, '--marker-set', markerSet, '--session', session, '--frames', '12-212', '--format', 'json'],
      { engine },
    );
    expect(asked).toEqual([
      {
        markerSet: { text: '{}', sha256: createHash('sha256').update('{}').digest('hex') },
        session: expect.objectContaining({ subject: expect.objectContaining({ code: 'P-9' }) }),
        frames: { first: 12, last: 212 },
      },
    ]);
    expect(JSON.parse(stdout).trial).toMatchObject({
      path: trial,
      sha256: createHash('sha256').update('ready').digest('hex'),
    });
  });
});

describe('formats and streams', () => {
  it('prints one object for one trial and an array for several', async () => {
    const trials = [file('a.c3d', 'ready'), file('b.c3d', 'adjust')];
    const one = await check([trials[0]!, '--format', 'json']);
    const both = await check([...trials, '--format', 'json']);
    expect(JSON.parse(one.stdout).verdict).toBe('ready');
    expect(JSON.parse(both.stdout).map((report: { verdict: string }) => report.verdict)).toEqual(['ready', 'adjust']);
    expect(both.stderr).toBe('');
  });

  it('shows no folder in text or in sentences, and the path as given in json', async () => {
    mkdirSync(join(folder, 'Anna Example'));
    const trials = [file('Anna Example/a.c3d', 'undecodable'), join(folder, 'Anna Example', 'none.c3d')];
    const text = await check(trials);
    expect(text.stdout + text.stderr).not.toContain('Anna');
    expect(text.stderr).toBe(
      'setsquare: a.c3d: Not readable as C3D at byte 1; export it again.\n' +
        'setsquare: none.c3d: Cannot read the trial: there is no such file or folder; check the name and the folder.\n',
    );
    const json = await check([...trials, '--format', 'json']);
    expect(JSON.parse(json.stdout)[0].trial.path).toBe(trials[0]);
    expect(json.stderr).not.toContain('Anna');
  });

  it('prints the same bytes for the same input', async () => {
    const argv = [file('a.c3d', 'adjust'), file('b.c3d', 'ready')];
    for (const format of ['text', 'json', 'jsonl']) {
      expect(await check([...argv, '--format', format])).toEqual(await check([...argv, '--format', format]));
    }
  });

  it('tells progress where it is seen and does not run into the report', async () => {
    const trials = [file('a.c3d', 'ready'), file('b.c3d', 'ready')];
    const output = join(folder, 'out.txt');
    expect((await check(trials, { isTTY: true })).stderr).toBe('');
    expect((await check([...trials, '--output', output])).stderr).toBe('');
    expect((await check([...trials, '--output', output], { isTTY: true })).stderr).toBe(
      'setsquare: checking trial 1 of 2, a.c3d.\nsetsquare: checking trial 2 of 2, b.c3d.\n',
    );
  });

  it('is as wide as the terminal, and 80 columns without one', async () => {
    const trial = file('a.c3d', 'adjust');
    const widest = async (columns?: number) =>
      Math.max(...(await check([trial], columns ? { columns } : {})).stdout.split('\n').map((line) => line.length));
    expect(await widest()).toBeLessThanOrEqual(80);
    expect(await widest(100)).toBeGreaterThan(80);
    expect(await widest(100)).toBeLessThanOrEqual(100);
  });

  it('is quiet when its reader leaves, and keeps the exit code so far', async () => {
    const trials = [file('a.c3d', 'adjust'), file('b.c3d', 'not assessable')];
    const result = await check([...trials, '--format', 'jsonl'], {
      onWrite: () => Object.assign(new Error('write EPIPE'), { code: 'EPIPE' }),
    });
    expect(result).toEqual({ code: 1, stdout: '', stderr: '' });
  });

  it('says so when standard output cannot be written', async () => {
    const result = await check([file('a.c3d', 'ready')], {
      onWrite: () => Object.assign(new Error('write ENOSPC'), { code: 'ENOSPC' }),
    });
    expect(result.code).toBe(2);
    expect(result.stderr).toBe(
      'setsquare: Cannot write the report to standard output: the disk is full; make room or choose another folder.\n',
    );
  });

  it('escapes control characters of names on the command line', async () => {
    const { stderr } = await check([file('a.c3d', 'ready'), '--format', '\u001b[31m\n\u202e']);
    expect(stderr).toBe(
      'setsquare: --format is "\\u001b[31m\\u000a\\u202e", expected text, json, jsonl, html or note.\n',
    );
  });
});

describe('colour', () => {
  const tty = { isTTY: true };
  it.each([
    ['never without a terminal', [], {}, false],
    ['on a terminal', [], tty, true],
    ['not on a dumb one', [], { ...tty, env: { TERM: 'dumb' } }, false],
    ['not with NO_COLOR, whatever it holds', [], { ...tty, env: { NO_COLOR: '0' } }, false],
    ['as ever with an empty NO_COLOR', [], { ...tty, env: { NO_COLOR: '' } }, true],
    ['with FORCE_COLOR', [], { env: { FORCE_COLOR: '1' } }, true],
    ['not with FORCE_COLOR=0', [], { ...tty, env: { FORCE_COLOR: '0' } }, false],
    ['not with both: NO_COLOR goes first', [], { env: { NO_COLOR: '1', FORCE_COLOR: '1' } }, false],
    ['with --color, before NO_COLOR', ['--color'], { env: { NO_COLOR: '1' } }, true],
    ['not with --no-color', ['--no-color'], { ...tty, env: { FORCE_COLOR: '1' } }, false],
  ])('%s', async (_, flags, surroundings, colored) => {
    const { stdout } = await check([file('a.c3d', 'adjust'), ...flags], surroundings);
    expect(stdout.includes('\u001b[')).toBe(colored);
  });
});

describe('--output', () => {
  it('writes what would have been printed, and leaves no temporary file', async () => {
    const trials = [file('a.c3d', 'ready'), file('b.c3d', 'adjust')];
    const output = join(folder, 'out.jsonl');
    const printed = await check([...trials, '--format', 'jsonl']);
    const result = await check([...trials, '--format', 'jsonl', '--output', output]);
    expect(result).toEqual({ code: 1, stdout: '', stderr: '' });
    expect(readFileSync(output, 'utf8')).toBe(printed.stdout);
    expect(readdirSync(folder).sort()).toEqual(['a.c3d', 'b.c3d', 'our-lab.json', 'out.jsonl']);
  });

  it('replaces an older file, keeps its rights, and follows a link', async () => {
    const older = file('older.txt', 'old');
    chmodSync(older, 0o600);
    const link = join(folder, 'link.txt');
    symlinkSync(older, link);
    await check([file('a.c3d', 'ready'), '--output', link]);
    expect(readFileSync(older, 'utf8')).toContain('Nothing found');
    expect(statSync(older).mode & 0o777).toBe(0o600);
  });

  it('leaves the older file as it was where it cannot be replaced', async () => {
    mkdirSync(join(folder, 'reports'));
    const { code, stderr } = await check([file('a.c3d', 'ready'), '--output', join(folder, 'reports')]);
    expect(code).toBe(2);
    expect(stderr).toBe('setsquare: Cannot write --output reports: it is a folder; name a file.\n');
    expect(readdirSync(join(folder, 'reports'))).toEqual([]);
    const missing = await check([file('a.c3d', 'ready'), '--output', join(folder, 'none', 'out.txt')]);
    expect(missing.code).toBe(2);
    expectOneSentence(missing.stderr);
  });

  it('writes nothing when Ctrl-C is pressed', async () => {
    const output = join(folder, 'out.txt');
    const { code } = await check([file('a.c3d', 'ready'), '--output', output], { onSigint: (press) => press() });
    expect(code).toBe(130);
    expect(readdirSync(folder)).not.toContain('out.txt');
  });

  it('never overwrites a file that is read', async () => {
    const trial = file('a.c3d', 'ready');
    const link = join(folder, 'link.c3d');
    symlinkSync(trial, link);
    const session = file('session.json', 'P-1');
    for (const output of [trial, link, markerSet, session]) {
      const { code, stderr } = await check([trial, '--session', session, '--output', output]);
      expect(code).toBe(2);
      expect(stderr).toContain('would overwrite a file that is read; choose another name.');
    }
    expect(readFileSync(trial, 'utf8')).toBe('ready');
  });

  it('writes to what is no ordinary file and never replaces it', async () => {
    const { code, stdout } = await check([file('a.c3d', 'ready'), '--output', '/dev/null']);
    expect({ code, stdout }).toEqual({ code: 0, stdout: '' });
    expect(statSync('/dev/null').isCharacterDevice()).toBe(true);
  });

  it('has no colour unless asked for', async () => {
    const output = join(folder, 'out.txt');
    const surroundings = { isTTY: true, env: { FORCE_COLOR: '1' } };
    await check([file('a.c3d', 'ready'), '--output', output], surroundings);
    expect(readFileSync(output, 'utf8')).not.toContain('\u001b');
    await check([file('a.c3d', 'ready'), '--output', output, '--color'], surroundings);
    expect(readFileSync(output, 'utf8')).toContain('\u001b');
  });
});

describe('check --format html', () => {
  it('prints one page for however many trials, and the names of files only where asked', async () => {
    const paths = ['ready', 'adjust'].map((name) => file(`${name}.c3d`, name));
    const { code, stdout } = await check([...paths, '--format', 'html']);
    expect(code).toBe(1);
    expect(stdout.match(/<!doctype html>/g)).toHaveLength(1);
    expect(stdout.match(/<article/g)).toHaveLength(2);
    expect(stdout).not.toContain('.c3d');
    const named = await check([...paths, '--format', 'html', '--show-names']);
    expect(named.stdout).toContain('adjust.c3d');
  });

  it('writes it to a file, and says of a trial that is not there that it cannot be judged', async () => {
    const output = join(folder, 'page.html');
    const { code, stdout } = await check([join(folder, 'gone.c3d'), '--format', 'html', '--output', output]);
    expect({ code, stdout }).toEqual({ code: 2, stdout: '' });
    const page = readFileSync(output, 'utf8');
    expect(page).toContain('This trial cannot be judged: the file cannot be read.');
    expect(page).not.toContain('gone.c3d');
  });
});
