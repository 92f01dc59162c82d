import { describe, expect, it } from 'vitest';
import { foldLabel } from '../../../src/core/marker-set/fold-label.ts';
import { parseMarkerSet } from '../../../src/core/marker-set/parse-marker-set.ts';
import { changedText, parseChanged, refusalOf, refusalOfText, shippedNames, shippedText } from './changed-set.ts';

describe('parseMarkerSet', () => {
  it.each([
    ['lower-limb-wands-22', 26, 'R_MET5'],
    ['lower-limb-medial-20', 21, 'R_MET2'],
  ] as const)('reads %s, with %i markers counting the optional ones', (name, markers, forefoot) => {
    const set = parseMarkerSet(shippedText(name), 'abc');
    expect(set).toMatchObject({ name, sha256: 'abc' });
    expect(set.markers).toHaveLength(markers);
    expect(set.markers.map(({ label }) => label)).toContain(forefoot);
    expect(set.markers.map(({ label }) => label)).not.toContain(forefoot.slice(2));
  });

  it.each(shippedNames)('%s: every @ and {side} is spelt out', (name) => {
    const { title: _, ...set } = parseMarkerSet(shippedText(name), '');
    expect(JSON.stringify(set)).not.toMatch(/"@|\{side\}/);
  });

  it.each(shippedNames)('%s: the two sides mirror each other', (name) => {
    const { rules, markers } = parseMarkerSet(shippedText(name), '');
    const swap: Record<string, string> = { R_: 'L_', L_: 'R_', right: 'left', left: 'right' };
    const mirrored = (value: unknown) =>
      JSON.parse(JSON.stringify(value).replaceAll(/\b[RL]_|\b(?:right|left)\b(?!":)/g, (side) => swap[side]!));
    const right = rules.filter(({ side }) => side === 'right');
    expect(right.length).toBeGreaterThan(5);
    // Pelvis widths and hip centres name both ASIS on either side; everything else turns over.
    for (const rule of right) {
      const other = rules.find(({ id }) => id === rule.id.replace('.right', '.left'));
      expect({ ...other, per: null }).toEqual({ ...mirrored(rule), per: null });
    }
    for (const marker of markers.filter(({ side }) => side === 'right')) {
      expect(markers.find(({ label }) => label === marker.mirror)).toMatchObject({
        mirror: marker.label,
        side: 'left',
      });
    }
  });

  it('takes a file of exactly 1,000,000 bytes, and none above', () => {
    const text = shippedText();
    const full = text + ' '.repeat(1_000_000 - new TextEncoder().encode(text).length);
    expect(parseMarkerSet(full, '').name).toBe('lower-limb-wands-22');
    const message =
      'marker set: found a file of more than 1 MB, expected at most 1,000,000 bytes; check that it is the file you mean.';
    expect(refusalOfText(`${full} `)).toEqual({ pointer: '/', message });
    // Bytes, not characters: each of these takes four.
    expect(refusalOfText(`"${'\u{1F9B6}'.repeat(250_000)}"`)).toEqual({ pointer: '/', message });
    expect(refusalOfText(`"${'\u{1F9B6}'.repeat(249_999)}"`)?.message).toContain('expected an object in braces');
  });

  it('takes a byte order mark', () => {
    expect(parseMarkerSet(`\ufeff${shippedText()}`, '').name).toBe('lower-limb-wands-22');
  });

  it('counts both sides toward the most that is allowed, and takes exactly that many', () => {
    const sized = (rules: number) =>
      refusalOf(({ set, rule }) => {
        const stem = rule('heel-level');
        set.variants = [];
        set.rules = Array.from({ length: rules }, (_, index) => ({ ...stem, id: `rule-${index}` }));
      });
    expect(sized(150)).toBeNull();
    expect(sized(151)?.message).toBe(
      'marker set, at /rules: found 302 entries with both sides counted, expected at most 300; take some out.',
    );
  });

  it.each(['__proto__', 'constructor', 'toString', 'hasOwnProperty', 'R 2', '\u05e2\u05e7\u05d1', '\u811a', 'a/b~c'])(
    'takes %s as a label like any other',
    (label) => {
      const set = parseChanged(({ set, marker }) => {
        set.markers.push({ ...marker('S1'), label, aliases: [`${label}x`], segment: 'foot.right', slides: ['up'] });
        set.orders.push({ first: 'C7', second: label, axis: 'up', byMm: 0 });
        Object.defineProperty(set.variants[0].landmarks, label, { value: 'elsewhere', enumerable: true });
      });
      const marker = set.markers.at(-1)!;
      expect(marker).toMatchObject({ label, stem: label, side: 'midline', mirror: null, aliases: [`${label}x`] });
      expect(Object.entries(set.variants[0]!.landmarks)).toContainEqual([label, 'elsewhere']);
      expect(set.orders.at(-1)!.second).toBe(label);
    },
  );

  it('lets no __proto__ of a file near its own objects', () => {
    for (const place of ['"markers": [', '"bodyAxes": {', '"stillness": {', '"variants": [']) {
      const text = changedText(() => {}).replace(place.replace(': ', ':'), (found) =>
        found.endsWith('{') ? `${found}"__proto__":{"right":"S1"},` : `${found}{"__proto__":{"label":"S1"}},`,
      );
      expect(text).toContain('__proto__');
      expect(refusalOfText(text)).not.toBeNull();
    }
    expect(({} as Record<string, unknown>).label).toBeUndefined();
  });
});

describe('foldLabel', () => {
  it.each([
    ['R_GT', 'rgt'],
    ['r gt.', 'rgt'],
    ['Sa\u0301', 's\u00e1'],
    ['S\u00e1', 's\u00e1'],
    ['\uff32\uff27\uff34', 'rgt'],
    ['***', ''],
  ])('%s', (label, folded) => {
    expect(foldLabel(label)).toBe(folded);
  });
});
