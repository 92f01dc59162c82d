import { describe, expect, it } from 'vitest';
import { doubtAbout } from '../../../src/core/report/step-words.ts';
import { buildMove } from './build-report.ts';

const said = (probability: number | null) => doubtAbout(buildMove({ probability, alternatives: [] }));

describe('how sure a step is', () => {
  it.each([
    [0.75, 'most likely the marker that is off'],
    [0.749, 'likely the marker that is off, but not certain'],
    [0.4, 'likely the marker that is off, but not certain'],
    [0.399, 'possibly the marker that is off'],
    [0.1, 'possibly the marker that is off'],
    [0.099, 'more likely built so'],
  ])('%f is called: %s', (probability, words) => {
    expect(said(probability)).toContain(words);
  });

  it('is not told where nothing weighed it', () => {
    expect(said(null)).toBe('');
  });
});
