import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { c3dWarningsPage, c3dWarningsPageUrl } from '../../scripts/c3d-warnings-page.ts';

const root = new URL('../../', import.meta.url);
const read = (path: string): string => readFileSync(new URL(path, root), 'utf8');

describe('docs/c3d-warnings.md', () => {
  it('holds the meanings that stand beside the reader', () => {
    expect(readFileSync(c3dWarningsPageUrl, 'utf8'), 'run npx tsx scripts/write-c3d-warnings-page.ts').toBe(
      c3dWarningsPage(),
    );
  });
});

describe('docs/problems.md', () => {
  const [, union] = /export type ProblemCode =([^;]+);/.exec(read('src/core/problems/problem.ts'))!;
  const codes = [...union!.matchAll(/'([a-z-]+)'/g)].map((match) => match[1]!).sort();
  const rows = [...read('docs/problems.md').matchAll(/^\| `([a-z-]+)` *\| ([^|]+?) *\| ([^|]+?) *\|$/gm)];

  it('has a line for every problem code, in order, and for nothing else', () => {
    expect(codes.length).toBeGreaterThan(10);
    expect(rows.map((row) => row[1])).toEqual(codes);
  });

  it('says of each what it means and what to do, in sentences', () => {
    for (const [, code, meaning, remedy] of rows) {
      expect(meaning, code).toMatch(/^[A-Z].*\.$/);
      expect(remedy, code).toMatch(/^[A-Z].*\.$/);
    }
  });

  it('is about codes that are in use', () => {
    const source = readdirSync(new URL('src/core/', root), { recursive: true, encoding: 'utf8' })
      .filter((path) => path.endsWith('.ts') && !path.endsWith('problem.ts'))
      .map((path) => read(`src/core/${path}`))
      .join('\n');
    for (const code of codes) expect(source, code).toContain(`code: '${code}'`);
  });
});
