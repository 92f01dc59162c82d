import { describe, expect, it } from 'vitest';
import { type Colour, palette, shapeOn, textOn } from '../../src/page/palette.ts';
import { pageStyle } from '../../src/page/style/page-style.ts';

/** Colours as the style hands them to the browser, not as the source spells them. */
const variables = new Map(
  [...pageStyle.matchAll(/--([a-z-]+):(#[0-9a-f]{6})/g)].map((match) => [match[1]!, match[2]!]),
);

/** Relative luminance, WCAG 2.2. */
function luminance(hex: string): number {
  const [r, g, b] = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16) / 255);
  const linear = (part: number): number => (part <= 0.04045 ? part / 12.92 : ((part + 0.055) / 1.055) ** 2.4);
  return 0.2126 * linear(r!) + 0.7152 * linear(g!) + 0.0722 * linear(b!);
}

function contrast(a: string, b: string): number {
  const [light, dark] = [luminance(a), luminance(b)].sort((x, y) => y - x);
  return (light! + 0.05) / (dark! + 0.05);
}

describe('the palette', () => {
  it('is measured as WCAG defines it: 21 for black on white, 4.54 for #767676, the grey that just passes', () => {
    expect(contrast('#000000', '#ffffff')).toBeCloseTo(21, 6);
    expect(contrast('#767676', '#ffffff')).toBeCloseTo(4.54, 2);
    expect(contrast('#777777', '#ffffff')).toBeLessThan(4.5);
  });

  it('reaches the page whole', () => {
    expect(Object.fromEntries([...variables].filter(([name]) => name in palette))).toEqual(palette);
  });

  it.each(textOn)('%s as text on %s has a contrast of 4.5 or more', (text, ground) => {
    expect(contrast(variables.get(text)!, variables.get(ground)!)).toBeGreaterThanOrEqual(4.5);
  });

  it.each(shapeOn)('%s as a shape on %s has a contrast of 3 or more', (shape, ground) => {
    expect(contrast(variables.get(shape)!, variables.get(ground)!)).toBeGreaterThanOrEqual(3);
  });

  // Machado, Oliveira and Fernandes 2009 (IEEE TVCG 15:1291-1298), severity 1; figures from memory.
  const blindness = {
    protanopia: [0.152286, 1.052583, -0.204868, 0.114503, 0.786281, 0.099216, -0.003882, -0.048116, 1.051998],
    deuteranopia: [0.367322, 0.860646, -0.227968, 0.280085, 0.672501, 0.047413, -0.01182, 0.04294, 0.968881],
    tritanopia: [1.255528, -0.076749, -0.178779, -0.078411, 0.930809, 0.147602, 0.004733, 0.691367, 0.3039],
  } as const;

  it.each(Object.keys(blindness) as (keyof typeof blindness)[])(
    'keeps orders and expected places apart with %s',
    (kind) => {
      const seen = (colour: Colour): number[] => {
        const hex = palette[colour];
        const rgb = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
        return [0, 3, 6].map((row) =>
          rgb.reduce((sum, part, column) => sum + part * blindness[kind][row + column]!, 0),
        );
      };
      const apart = (a: Colour, b: Colour): number => Math.hypot(...seen(a).map((part, i) => part - seen(b)[i]!));
      expect(apart('arrow', 'expected')).toBeGreaterThan(60);
      expect(apart('finding', 'good')).toBeGreaterThan(60);
    },
  );
});
