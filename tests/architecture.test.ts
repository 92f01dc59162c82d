import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { dirname, join, normalize } from 'node:path/posix';
import ts from 'typescript';
import { describe, expect, it } from 'vitest';
import { ruleKinds } from '../src/core/rule-kinds/all-rule-kinds.ts';

/** What may import what: each layer only what stands before it, and its own files. */
const layers = [
  'core/version.ts',
  'core/geometry',
  'core/c3d',
  'core/problems',
  'core/schemas',
  'core/force-plates',
  'core/rule-kinds',
  'core/marker-set',
  'core/session',
  'core/measurements',
  'core/labels',
  'core/pose',
  'core/stand-trial.ts',
  'core/gait-model',
  'core/rules',
  'core/sheet-against-trial',
  'core/decision',
  'core/moves',
  'core/own-norms',
  'core/report',
  'core/reader-note',
  'core/captures',
  'core/compare',
  'core/repeatability',
  'core/study',
  'core/inspect-trial.ts',
  'core/measurement-sheet',
  'core/blind-spots',
  'core/marker-set-draft',
  'core/crosstalk',
  'core/check-trial.ts',
  'core/practice',
  'page',
  'node',
  'index.ts',
  'watch',
  'audit',
  'practice',
  'cli',
  'browser',
];

/**
 * Tests of a whole folder, named for what comes through its door: hostile and odd input, faults planted on people, a
 * description of a file without its data. Every other test is named for the file it is about.
 */
const testsOfAFolder =
  /^(c3d|marker-set)\/hostile$|^c3d\/(describe-c3d|odd-layout)$|^marker-set\/refuse-[a-z]+$|^moves\/(planted-faults|innocent-markers)$|^repeatability\/published-examples$|^schemas\/schemas$|^check-trial-(odd-files|patients)$/;

const root = new URL('../', import.meta.url);
const manifest = JSON.parse(read('package.json'));
const packages = new Set(Object.keys({ ...manifest.dependencies, ...manifest.optionalDependencies }));

function read(path: string): string {
  return readFileSync(new URL(path, root), 'utf8');
}

function filesBelow(folder: string, ending: string): string[] {
  return readdirSync(new URL(`${folder}/`, root), { recursive: true, encoding: 'utf8' })
    .filter((path) => path.endsWith(ending) && !path.startsWith('core/schemas/compiled'))
    .sort();
}

const sources = new Map(
  [...filesBelow('src', '.ts'), ...filesBelow('src', '.tsx')].map((path) => [
    path,
    ts.createSourceFile(path, read(`src/${path}`), ts.ScriptTarget.ES2023, true),
  ]),
);

function walk(node: ts.Node, visit: (node: ts.Node) => void): void {
  visit(node);
  node.forEachChild((child) => walk(child, visit));
}

/** Everything that a file imports, re-exports or loads, as written. */
function importsOf(source: ts.SourceFile): string[] {
  const found: string[] = [];
  walk(source, (node) => {
    if ((ts.isImportDeclaration(node) || ts.isExportDeclaration(node)) && node.moduleSpecifier !== undefined) {
      found.push((node.moduleSpecifier as ts.StringLiteral).text);
    } else if (ts.isCallExpression(node) && node.expression.kind === ts.SyntaxKind.ImportKeyword) {
      found.push((node.arguments[0] as ts.StringLiteral).text);
    }
  });
  return found;
}

const edges = [...sources].flatMap(([from, source]) =>
  importsOf(source)
    .filter((name) => name.startsWith('.'))
    .map((name) => ({ from, to: normalize(join(dirname(from), name)) })),
);

/** The package that an import names, without what lies inside it. */
function packageOf(name: string): string {
  return name.split('/', name.startsWith('@') ? 2 : 1).join('/');
}

function layerOf(path: string): number {
  return layers.findIndex((layer) => path === layer || path.startsWith(`${layer}/`));
}

describe('imports', () => {
  it('stay within src, the declared packages and, outside the core, Node', () => {
    const strange = [...sources].flatMap(([path, source]) =>
      importsOf(source)
        .filter((name) => {
          if (name.startsWith('.')) return normalize(join(dirname(path), name)).startsWith('..');
          if (name.startsWith('node:')) return path.startsWith('core/');
          return !packages.has(packageOf(name));
        })
        .map((name) => `${path} imports ${name}`),
    );
    expect(strange).toEqual([]);
  });

  it('know every layer', () => {
    expect([...sources.keys()].filter((path) => layerOf(path) < 0)).toEqual([]);
  });

  it('go downwards only', () => {
    const upward = edges.filter(({ from, to }) => layerOf(to) > layerOf(from));
    expect(upward.map(({ from, to }) => `${from} imports ${to}`)).toEqual([]);
  });

  it('go round in no circle', () => {
    const targetsOf = (path: string): string[] => edges.flatMap(({ from, to }) => (from === path ? [to] : []));
    const done = new Set<string>();
    const circles: string[] = [];
    const follow = (path: string, trail: readonly string[]): void => {
      if (trail.includes(path)) circles.push([...trail.slice(trail.indexOf(path)), path].join(' -> '));
      if (trail.includes(path) || done.has(path)) return;
      for (const to of targetsOf(path)) follow(to, [...trail, path]);
      done.add(path);
    };
    for (const path of sources.keys()) follow(path, []);
    expect(circles).toEqual([]);
  });

  it('were looked at', () => {
    expect(edges.length).toBeGreaterThan(200);
    expect(edges).toContainEqual({ from: 'core/stand-trial.ts', to: 'core/c3d/read-c3d.ts' });
  });
});

describe('the core', () => {
  const impure = new Set(
    'Buffer Date console crypto fetch globalThis performance process require setTimeout'.split(' '),
  );

  it('knows no clock, no chance, no process and no console', () => {
    const found: string[] = [];
    for (const [path, source] of sources) {
      if (!path.startsWith('core/')) continue;
      walk(source, (node) => {
        if (!ts.isIdentifier(node)) return;
        const { parent } = node;
        const isField =
          (ts.isPropertyAccessExpression(parent) && parent.name === node) ||
          (ts.isPropertySignature(parent) && parent.name === node) ||
          (ts.isPropertyAssignment(parent) && parent.name === node);
        if (isField ? parent.getText() === 'Math.random' : impure.has(node.text)) {
          found.push(`${path}: ${parent.getText().slice(0, 60)}`);
        }
      });
    }
    expect(found).toEqual([]);
  });
});

describe('every dependency', () => {
  it('has its reason and its version in the decisions', () => {
    const page = read('docs/decisions/dependencies.md');
    const pinned = { ...manifest.dependencies, ...manifest.optionalDependencies, ...manifest.devDependencies };
    const rows = page.split('\n').filter((line) => line.startsWith('| '));
    const unnamed = Object.entries<string>(pinned).filter(
      ([name, version]) => !rows.some((row) => row.includes(name) && row.includes(version)),
    );
    expect(unnamed).toEqual([]);
  });
});

describe('a kind of rule', () => {
  const beside = ['all-rule-kinds', 'allowed', 'positions', 'rule-kind'];
  const named = (folder: string, ending: string): string[] =>
    filesBelow(folder, ending)
      .map((path) => path.slice(0, -ending.length))
      .filter((name) => !beside.includes(name));
  const kinds = Object.keys(ruleKinds).sort();

  it('has a file, a test, a page and a drawing', () => {
    expect(named('src/core/rule-kinds', '.ts')).toEqual(kinds);
    expect(named('tests/core/rule-kinds', '.test.ts')).toEqual(kinds);
    expect(named('docs/rules', '.md')).toEqual(kinds);
    expect(named('docs/rules', '.svg')).toEqual(kinds);
  });

  it('has an entry in the schema of marker sets', () => {
    const { geometry } = JSON.parse(read('shared/schemas/marker-set.schema.json')).$defs;
    const entries = geometry.oneOf.map((entry: { properties: { kind: { const: string } } }) => entry.properties.kind);
    expect(entries.map((kind: { const: string }) => kind.const).sort()).toEqual(kinds);
  });
});

describe('files', () => {
  const all = ['src', 'scripts', 'tests'].flatMap((folder) =>
    [...filesBelow(folder, '.ts'), ...filesBelow(folder, '.tsx')].map((path) => `${folder}/${path}`),
  );

  it('of the core have tests that mirror them', () => {
    const orphans = filesBelow('tests/core', '.test.ts')
      .map((path) => path.slice(0, -'.test.ts'.length))
      .filter((path) => !testsOfAFolder.test(path) && !existsSync(new URL(`src/core/${path}.ts`, root)));
    expect(orphans).toEqual([]);
  });

  it('of the source are short', () => {
    const long = all.filter((path) => !path.startsWith('tests/')).filter((path) => read(path).split('\n').length > 260);
    expect(long).toEqual([]);
  });

  it('are named for what they do, in kebab case', () => {
    const names = all.map((path) => path.slice(path.lastIndexOf('/') + 1));
    expect(names.filter((name) => /^(utils?|helpers?|types|constants|common|misc)\./.test(name))).toEqual([]);
    expect(names.filter((name) => !/^[a-z0-9]+(-[a-z0-9]+)*(\.test|\.d)?\.tsx?$/.test(name))).toEqual([]);
  });
});
