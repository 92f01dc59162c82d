import { expect, it } from 'vitest';
import { drawMarkerSet } from '../../../src/core/marker-set-draft/draw-marker-set.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const strange = { ...wands22.markers[0]!, label: '<script>&"' };

it('drawMarkerSet escapes names and labels, and says which markers the adult has no place for', () => {
  const set = { ...wands22, name: 'a<b', markers: [...wands22.markers, strange] };
  const svg = drawMarkerSet(set, new Map([['C7', [-150, 0, 1450]]]));
  expect(svg).not.toMatch(/<script|a<b/);
  expect(svg).toContain('Markers of a&lt;b on a standing adult');
  expect(svg).toContain('&lt;script&gt;&amp;&quot;');
  expect(svg.match(/<circle /g)!.length).toBe(2);
});

it('drawMarkerSet escapes the label of a marker that it draws', () => {
  const svg = drawMarkerSet({ ...wands22, markers: [strange] }, new Map([['<script>&"', [0, 0, 900]]]));
  expect(svg).toContain('>&lt;script&gt;&amp;&quot;</text>');
  expect(svg).not.toContain('Not drawn');
});
