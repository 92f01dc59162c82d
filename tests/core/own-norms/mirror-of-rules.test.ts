import { describe, expect, it } from 'vitest';
import { mirrorOfRules } from '../../../src/core/own-norms/mirror-of-rules.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { session } from './own-laboratory.ts';

describe.each([wands22, medial20])('mirrors of the rules of $name', (set) => {
  const mirrors = mirrorOfRules(set, session, symmetricAdult());

  it('are the rules of the other side, with the same sign', () => {
    for (const { id, side } of set.rules) {
      if (side !== 'right' && side !== 'left') continue;
      const other = id.replace(/(right|left)$/, side === 'right' ? 'left' : 'right');
      expect(mirrors.get(id), id).toEqual({ rule: other, sign: 1 });
    }
  });

  it('change the sign of what compares right and left, and keep that of what looks from the side', () => {
    for (const id of ['asis-level', 'knees-level', 'thighs-alike'])
      if (set.rules.some((rule) => rule.id === id)) expect(mirrors.get(id), id).toEqual({ rule: id, sign: -1 });
    for (const id of ['sacral-square', 'pelvic-slope'])
      if (set.rules.some((rule) => rule.id === id)) expect(mirrors.get(id), id).toEqual({ rule: id, sign: 1 });
  });
});
