import { describe, expect, it } from 'vitest';
import { markersOf } from '../../../src/core/rules/rule-markers.ts';
import { placedMarkers, ruleOf, shippedSet, stand, without, withoutMedialMarkers } from './stand-person.ts';

const set = shippedSet();
const markers = placedMarkers();
const on = (id: string, positions = markers) => markersOf(ruleOf(set, id), set, stand(positions).geometry.has);

const inSetOrder = (...labels: string[]): string[] =>
  set.markers.map(({ label }) => label).filter((label) => labels.includes(label));

describe('markersOf', () => {
  it('names the points of a rule in the order of the set', () => {
    expect(on('heel-level.right')).toEqual(inSetOrder('R_HEEL', 'R_MET5'));
    expect(on('asis-level')).toEqual(['R_ASIS', 'L_ASIS']);
  });

  it('names the markers behind virtual points', () => {
    expect(on('sacral-square')).toEqual(inSetOrder('C7', 'R_ACR', 'L_ACR', 'R_ASIS', 'L_ASIS', 'S1'));
  });

  it('names the markers that give the direction of view, while they are there', () => {
    expect(on('thigh-wand-in-line.left')).toEqual(inSetOrder('R_ASIS', 'L_ASIS', 'S1', 'L_GT', 'L_TW', 'L_LE', 'L_ME'));
    expect(on('thigh-wand-in-line.left', withoutMedialMarkers(markers))).not.toContain('L_ME');
  });

  it('names the markers of what takes the place of a point, not of the point that is missing', () => {
    const noHip = on('thigh-wand-in-line.right', without(markers, 'S1'));
    expect(noHip).toEqual(inSetOrder('R_GT', 'R_TW', 'R_LE', 'R_ME'));
  });

  it('names the first choice where none of the choices is there', () => {
    const nothing = markersOf(ruleOf(set, 'shank-wand-in-line.right'), set, () => false);
    expect(nothing).toEqual(inSetOrder('R_LE', 'R_HF', 'R_SW', 'R_LM', 'R_ME'));
  });

  it.each(['lower-limb-wands-22', 'lower-limb-medial-20'])(
    'knows every marker that may move for a rule: %s',
    (name) => {
      const shipped = shippedSet(name);
      const ways = [() => true, (point: string) => !['midPsis', 'R_PSIS', 'L_PSIS'].includes(point)];
      for (const rule of shipped.rules) {
        const named = new Set(ways.flatMap((has) => markersOf(rule, shipped, has)));
        // The wand is set on the trochanter's line: a trochanter off its bone carries the wand with it.
        expect(
          rule.mayMove.filter((label) => !named.has(label)),
          rule.id,
        ).toEqual([]);
      }
    },
  );
});
