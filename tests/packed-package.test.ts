import { execFileSync, spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { homedir, tmpdir } from 'node:os';
import { dirname, join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../', import.meta.url));

let folder: string;
/** The package as it lies in somebody's node_modules. */
let installed: string;
let files: string[];

/** Packs what the last build left, as publishing does after building, and installs it where there is nothing else. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-pack-'));
  const unpacked = join(folder, 'unpacked');
  mkdirSync(unpacked);
  execFileSync('tar', ['-xzf', pack(root, folder), '-C', unpacked]);
  const manifestPath = join(unpacked, 'package', 'package.json');
  const { dependencies, optionalDependencies, ...manifest } = JSON.parse(readFileSync(manifestPath, 'utf8'));
  // The bundle holds what it runs on, so that nothing has to be fetched: taken away here, which proves it.
  writeFileSync(manifestPath, JSON.stringify(manifest));
  const user = join(folder, 'user');
  mkdirSync(user);
  writeFileSync(join(user, 'package.json'), '{ "private": true, "type": "module" }');
  npm(user, 'install', '--offline', '--ignore-scripts', '--no-audit', '--no-fund', pack(dirname(manifestPath), folder));
  installed = join(user, 'node_modules', 'setsquare');
  files = readdirSync(installed, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => join(entry.parentPath, entry.name));
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true, force: true }));

function npm(cwd: string, ...argv: string[]): string {
  return execFileSync('npm', argv, { cwd, encoding: 'utf8', stdio: ['ignore', 'pipe', 'pipe'] });
}

/** Path of the tarball. */
function pack(from: string, to: string): string {
  const [packed] = JSON.parse(npm(from, 'pack', '--ignore-scripts', '--json', '--pack-destination', to));
  return join(to, packed.filename);
}

/** A program of somebody who uses the package. */
function program(name: string, text: string): string {
  const path = join(installed, '..', '..', name);
  writeFileSync(path, text);
  return path;
}

const sample = (name: string) => join(installed, 'sample-trials', name);

describe('the installed package', () => {
  it('stands alone', () => {
    expect(readdirSync(join(installed, '..')).filter((name) => !name.startsWith('.'))).toEqual(['setsquare']);
  });

  it('runs as a command', () => {
    const command = join(installed, '..', '.bin', 'setsquare');
    const { status, stdout, stderr } = spawnSync(command, ['check', sample('wand-forward.c3d')], { encoding: 'utf8' });
    expect({ status, stderr }).toEqual({ status: 1, stderr: '' });
    expect(stdout).toMatch(/1\. Turn the patient's right thigh wand/);
    expect(stdout).not.toContain('setsquare source');
  });

  it('is a library that gives the report which the command prints', () => {
    const path = program(
      'use.mjs',
      `import { readFileSync } from 'node:fs';
       import { createRequire } from 'node:module';
       import { createHash } from 'node:crypto';
       import { checkTrial, emptySession, parseMarkerSet, parseNorms } from 'setsquare';
       const setPath = createRequire(import.meta.url).resolve('setsquare/marker-sets/lower-limb-wands-22');
       const setText = readFileSync(setPath, 'utf8');
       const set = parseMarkerSet(setText, createHash('sha256').update(setText).digest('hex'));
       const norms = parseNorms(readFileSync(setPath.replace('marker-sets', 'norms'), 'utf8'), set);
       const [path] = process.argv.slice(2);
       const { verdict, moves } = checkTrial(readFileSync(path), set, emptySession, { path, sha256: '' }, norms);
       const rounded = (probability) => Math.round(probability * 100) / 100;
       const steps = moves.map((move) => [move.action, rounded(move.probability), move.instruction]);
       console.log(JSON.stringify([verdict, steps]));`,
    );
    const printed = JSON.parse(
      execFileSync(process.execPath, [path, sample('wand-forward.c3d')], { encoding: 'utf8' }),
    );
    const command = spawnSync(
      join(installed, '..', '.bin', 'setsquare'),
      ['check', '--format', 'json', sample('wand-forward.c3d')],
      { encoding: 'utf8' },
    );
    const { verdict, moves } = JSON.parse(command.stdout);
    const steps = moves.map((move: Record<string, unknown>) => [move.action, move.probability, move.instruction]);
    expect(printed).toEqual([verdict, steps]);
    expect(steps.length).toBeGreaterThan(0);
    expect(steps[0][1]).toBeGreaterThan(0);
  });

  it('audits in threads of its own, and without DuckDB says that Parquet needs it', () => {
    const store = join(folder, 'store');
    const { status, stdout, stderr } = spawnSync(
      join(installed, '..', '.bin', 'setsquare'),
      ['audit', sample(''), '--store', store, '--export', join(folder, 'rows.parquet')],
      { encoding: 'utf8' },
    );
    expect(status).toBe(0);
    expect(stdout).toContain('Trials to look at again');
    expect(stderr.replaceAll(/\s+/g, ' ')).toContain('Parquet needs the package @duckdb/node-api');
    expect(readdirSync(join(store, 'parts'))).toEqual(['part-1-of-1.jsonl']);
    expect(readdirSync(folder)).toContain('rows.jsonl');
    const report = spawnSync(join(installed, '..', '.bin', 'setsquare'), ['audit', 'report', store], {
      encoding: 'utf8',
    });
    expect(report.stdout).toBe(stdout);
  });

  it('gives its schemas and samples away', () => {
    const path = program(
      'resolve.mjs',
      `import { createRequire } from 'node:module';
       const require = createRequire(import.meta.url);
       console.log(['marker-set', 'session', 'report'].map((name) => require('setsquare/schemas/' + name).title).length);`,
    );
    expect(execFileSync(process.execPath, [path], { encoding: 'utf8' }).trim()).toBe('3');
    expect(files.some((file) => file.endsWith('heel-low.c3d'))).toBe(true);
  });
});

describe('its types', () => {
  const consumer = (verdict: string) => `
    import { checkTrial, emptySession, type LoadedMarkerSet, type Report } from 'setsquare';
    declare const set: LoadedMarkerSet;
    const report: Report = checkTrial(new Uint8Array(0), set, emptySession, { path: '', sha256: '' });
    const steps: string[] = report.moves.map((move) => move.instruction);
    if (report.verdict === '${verdict}') throw new Error(steps.join());`;

  function compile(text: string): string {
    const path = program('consumer.ts', text);
    program(
      'tsconfig.json',
      `{ "compilerOptions": {
           "strict": true, "noEmit": true, "module": "nodenext", "target": "es2023", "lib": ["es2023"], "types": []
         }, "files": ["consumer.ts"] }`,
    );
    const tsc = join(root, 'node_modules', 'typescript', 'bin', 'tsc');
    const run = spawnSync(process.execPath, [tsc, '-p', dirname(path)], { encoding: 'utf8' });
    return run.stdout;
  }

  it('let a strict consumer compile without any other types, library checks and all', () => {
    expect(compile(consumer('ready'))).toBe('');
  });

  it('are more than any', () => {
    expect(compile(consumer('perfect'))).toContain("types 'Verdict' and '\"perfect\"' have no overlap");
  });
});

describe('its files', () => {
  it('name no path of the machine they were packed on', () => {
    const paths = [root.replace(/\/$/, ''), homedir(), tmpdir()].filter((path) => path.length > 2);
    const telling = files.filter((file) => {
      const text = readFileSync(file, 'latin1');
      return paths.some((path) => text.includes(`${path}/`));
    });
    expect(telling).toEqual([]);
  });

  it('bring no source map and no source', () => {
    const code = files.filter((file) => /\.[cm]?js$/.test(file));
    expect(code.length).toBeGreaterThan(1);
    expect(files.filter((file) => /\.map$|(?<!\.d)\.[cm]?ts$/.test(file))).toEqual([]);
    expect(code.filter((file) => /\/\/[#@] sourceMappingURL=/.test(readFileSync(file, 'utf8')))).toEqual([]);
  });
});
