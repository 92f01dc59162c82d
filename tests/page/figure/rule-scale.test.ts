import { h } from 'preact';
import { render } from 'preact-render-to-string';
import { describe, expect, it } from 'vitest';
import { allowedEnds, RuleScale, type Scaled } from '../../../src/page/figure/rule-scale.tsx';

const heel: Scaled = { value: -11.2, target: 0, limit: 8, borderline: 3, uncertainty: 0.2, status: 'fail' };
const draw = (rule: Scaled) => render(h(RuleScale, { rule }));
const numbers = (svg: string, pattern: RegExp) => pattern.exec(svg)!.slice(1).map(Number);

describe('allowedEnds', () => {
  it('knows targets, ranges and open ends', () => {
    expect(allowedEnds(heel)).toEqual({ low: -8, high: 8 });
    expect(allowedEnds({ value: 1, status: 'pass', range: [15, null] })).toEqual({ low: 15, high: Infinity });
    expect(allowedEnds({ value: 1, status: 'pass', limit: null })).toBeNull();
  });
});

describe('RuleScale', () => {
  it('keeps proportions: the value as far outside the band as it is', () => {
    const svg = draw(heel);
    const [x, width] = numbers(svg, /class="allowed" x="([\d.]+)" width="([\d.]+)"/);
    const [at] = numbers(svg, /class="value" d="M([\d.]+) /);
    // Band from -8 to 8: 3.2 mm before its start is a fifth of its width.
    expect((x! - at!) / width!).toBeCloseTo(3.2 / 16, 2);
    const [near] = numbers(svg, /class="near" x="[\d.]+" width="([\d.]+)"/);
    expect(near! / width!).toBeCloseTo(3 / 16, 2);
  });

  it('tells beyond, near and within by shape', () => {
    expect(draw(heel)).toMatch(/<path class="value"/);
    const near = draw({ ...heel, value: -7, status: 'borderline' });
    expect(near).toMatch(/<circle class="value"/);
    expect(near).toContain('class="half"');
    expect(draw({ ...heel, value: 0, status: 'pass' })).not.toContain('class="half"');
  });

  it('runs to the edge where an end is open, and draws nothing without a value', () => {
    const [x, width] = numbers(
      draw({ value: 137, range: [15, null], status: 'pass' }),
      /class="allowed" x="([\d.]+)" width="([\d.]+)"/,
    );
    expect(x! + width!).toBeCloseTo(260, 0);
    expect(draw({ ...heel, value: null })).toBe('');
  });
});
