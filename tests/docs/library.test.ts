import { spawnSync } from 'node:child_process';
import { mkdirSync, mkdtempSync, readFileSync, rmSync, symlinkSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';

const root = fileURLToPath(new URL('../../', import.meta.url));
const page = readFileSync(join(root, 'docs/library.md'), 'utf8');
/** Each block of code with what the page says that it prints. */
const examples = [...page.matchAll(/^```ts\n([\s\S]*?)^```\n\n```text\n([\s\S]*?)^```$/gm)].map(
  ([, code, printed], index) => ({ name: `example-${index + 1}`, code: code!, printed: printed! }),
);

let folder: string;

/** A folder of somebody who has the package installed, as the last build left it. */
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'setsquare-'));
  mkdirSync(join(folder, 'node_modules'));
  symlinkSync(root, join(folder, 'node_modules', 'setsquare'));
  symlinkSync(join(root, 'sample-trials'), join(folder, 'sample-trials'));
  for (const { name, code } of examples) {
    writeFileSync(join(folder, `${name}.mts`), code);
    const { outputText } = ts.transpileModule(code, {
      compilerOptions: { module: ts.ModuleKind.ESNext, target: ts.ScriptTarget.ES2023 },
    });
    writeFileSync(join(folder, `${name}.mjs`), outputText);
  }
});
afterAll(() => rmSync(folder, { recursive: true, force: true }));

describe('docs/library.md', () => {
  it('says of every block of code what it prints', () => {
    expect(page.match(/^```ts$/gm)).toHaveLength(examples.length);
    expect(examples.length).toBeGreaterThan(4);
  });

  it.each(examples)('$name prints what the page says', ({ name, printed }) => {
    const ran = spawnSync(process.execPath, [`${name}.mjs`], { cwd: folder, encoding: 'utf8' });
    expect(ran.stderr).toBe('');
    expect(ran.stdout).toBe(printed);
  });

  it('compiles under strict settings', () => {
    const files = examples.map(({ name }) => join(folder, `${name}.mts`));
    const program = ts.createProgram(files, {
      strict: true,
      noEmit: true,
      noUncheckedIndexedAccess: true,
      module: ts.ModuleKind.NodeNext,
      target: ts.ScriptTarget.ES2023,
      types: ['node'],
      typeRoots: [join(root, 'node_modules/@types')],
    });
    const faults = ts.getPreEmitDiagnostics(program);
    expect(faults.map(({ messageText }) => ts.flattenDiagnosticMessageText(messageText, '\n'))).toEqual([]);
  }, 30_000);
});
