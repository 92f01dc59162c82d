import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { pagesWithOutput, withCurrentOutput } from '../scripts/update-docs.js';

describe('pages that show output', () => {
  it.each(pagesWithOutput())('%s shows what the program prints now', (page) => {
    expect(withCurrentOutput(page)).toBe(readFileSync(new URL(`../${page}`, import.meta.url), 'utf8'));
  });
});
