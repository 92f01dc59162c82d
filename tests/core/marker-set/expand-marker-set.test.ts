import { describe, expect, it } from 'vitest';
import { parseChanged } from './changed-set.ts';

const set = parseChanged(({ marker }) => {
  marker('GT').aliases = { right: ['Trochanter re'], left: ['Trochanter li'] };
  marker('S1').aliases = ['Sacrum'];
});
const find = <Item>(items: readonly Item[], wanted: Partial<Item>): Item | undefined =>
  items.find((item) => Object.entries(wanted).every(([key, value]) => item[key as keyof Item] === value));

describe('expandMarkerSet', () => {
  it('writes a sided marker out for both sides, with the aliases of each', () => {
    expect(find(set.markers, { label: 'L_GT' })).toMatchObject({
      stem: 'GT',
      side: 'left',
      mirror: 'R_GT',
      aliases: ['Trochanter li'],
      wandLengthMm: 0,
      baseThicknessMm: 0,
    });
    expect(find(set.markers, { label: 'S1' })).toMatchObject({ side: 'midline', mirror: null, aliases: ['Sacrum'] });
    expect(find(set.markers, { label: 'R_LE' })?.aliases).toEqual([]);
    expect(find(set.markers, { label: 'R_TW' })?.wandLengthMm).toBe(75);
    expect(set.markers.every((marker) => !('sided' in marker))).toBe(true);
  });

  it('puts the side into points, views, segments and texts of a sided rule', () => {
    expect(find(set.rules, { id: 'thigh-wand-in-line.left' })).toMatchObject({
      side: 'left',
      point: 'L_TW',
      distal: 'L_LE',
      view: 'kneeAxis.left',
      mayMove: ['L_TW', 'L_LE', 'L_ME', 'L_GT'],
    });
    expect(find(set.rules, { id: 'fibular-head-below.right' })).toMatchObject({ segment: 'shank.right' });
    expect(find(set.rules, { id: 'foot-turned-out.left' })?.saysAbove).toContain("the left foot's line");
    expect(find(set.views, { name: 'malleolarAxis.left' })).toMatchObject({ base: 'kneeAxis.left', from: 'L_MM' });
    expect(find(set.segments, { name: 'thigh.right' })).toMatchObject({
      longAxis: { from: 'R_LE', to: 'R_hipTop' },
      outward: 'kneeAxis.right',
      forward: null,
    });
    expect(find(set.virtualPoints, { name: 'L_hipCentre' })).toMatchObject({ side: 'left', rightAsis: 'R_ASIS' });
    expect(set.orders.slice(0, 2)).toEqual([
      { first: 'R_GT', second: 'R_TW', axis: 'up', byMm: 20, side: 'right' },
      { first: 'L_GT', second: 'L_TW', axis: 'up', byMm: 20, side: 'left' },
    ]);
    expect(set.oftenSwapped.slice(0, 2)).toEqual([
      ['R_TW', 'R_GT'],
      ['L_TW', 'L_GT'],
    ]);
    expect(set.placementOrder.slice(0, 2)).toEqual(['R_MET5', 'L_MET5']);
  });

  it('fills in what may be left out', () => {
    const bare = parseChanged(({ set, rule }) => {
      const { explainedBy, suspendedBy, shiftedBy, side, ...pair } = rule('asis-level');
      set.rules.push({ ...pair, id: 'bare-pair' });
      const { segment, essential, ...order } = rule('fibular-head-below');
      set.rules.push({ ...order, id: 'bare-order' });
      const { base, recordedAs, recordedSdDeg, ...view } = set.views[1];
      set.views.push({ ...view, name: 'bareView' });
    });
    expect(find(bare.rules, { id: 'bare-pair' })).toMatchObject({
      side: 'both',
      explainedBy: [],
      suspendedBy: [],
      shiftedBy: [],
      essential: false,
    });
    expect(find(bare.rules, { id: 'bare-order.left' })).toMatchObject({ side: 'left', segment: null });
    expect(find(bare.rules, { id: 'sacral-square' })?.side).toBe('midline');
    expect(find(bare.views, { name: 'bareView.right' })).toMatchObject({ base: null, recordedAs: null });
    expect(bare.variants[0]!.suspends[0]).toEqual({ rule: 'heels-alike', when: 'one-side', unless: null });
  });
});
