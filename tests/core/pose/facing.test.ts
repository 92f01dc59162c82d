import { describe, expect, it } from 'vitest';
import { remove, swapSides } from '../../../sample-trials/plant-fault.ts';
import { findFacing } from '../../../src/core/pose/facing.ts';
import { inOrder, placedByHand, symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { checkPositions } from '../../support/still-trial.ts';

const up: [number, number, number] = [0, 0, 1];
const facing = (positions: ReturnType<typeof symmetricAdult>, set = wands22) =>
  findFacing(
    inOrder(
      positions,
      set.markers.map((marker) => marker.label),
    ),
    set,
    up,
  );

describe('findFacing', () => {
  it('faces forward, with left on the left, on ordinary people', () => {
    for (const set of [wands22, medial20]) {
      for (let seed = 1; seed <= 100; seed += 1) {
        const { forward, left, agreement } = facing(placedByHand(seed), set)!;
        expect(forward[0]).toBeGreaterThan(0.97);
        expect(left[1]).toBeGreaterThan(0.97);
        expect(agreement).toBeGreaterThan(0.97);
      }
    }
  });

  it('is not turned round by exchanged sides', () => {
    expect(facing(swapSides(symmetricAdult()))!.forward).toEqual(facing(symmetricAdult())!.forward);
  });

  it('goes by what is left when markers are missing, and by nothing when none is', () => {
    expect(facing(['S1', 'C7'].reduce(remove, symmetricAdult()))!.forward[0]).toBeGreaterThan(0.97);
    expect(facing(['S1', 'C7', 'L_HEEL'].reduce(remove, symmetricAdult()))).toBeNull();
  });

  it('says so when the feet are set the other way round', () => {
    const person = symmetricAdult();
    const turned = new Map(person);
    for (const side of ['R_', 'L_']) {
      const [heel, forefoot] = [person.get(`${side}HEEL`)!, person.get(`${side}MET5`)!];
      turned.set(`${side}HEEL`, forefoot).set(`${side}MET5`, heel);
    }
    expect(facing(turned)!.agreement).toBeLessThan(0.7);
  });

  it('lets swapped foot labels be told as such, not as a body that faces nowhere', () => {
    const person = symmetricAdult();
    const turned = new Map(person).set('R_HEEL', person.get('R_MET5')!).set('R_MET5', person.get('R_HEEL')!);
    expect(checkPositions(turned).problems.map(({ code }) => code)).toEqual(['labels-swapped']);
  });
});
