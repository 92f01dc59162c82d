import { describe, expect, it } from 'vitest';
import { ruleKinds } from '../../../src/core/rule-kinds/all-rule-kinds.ts';

describe('all rule kinds', () => {
  it.each(Object.entries(ruleKinds))('%s stands under its own name and says what it measures', (name, kind) => {
    expect(kind.kind).toBe(name);
    expect(kind.summary).toMatch(/^How |^The |^Right minus left /);
    expect(kind.summary.endsWith('.')).toBe(true);
  });
});
