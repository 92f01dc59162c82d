import { describe, expect, it } from 'vitest';
import { assessStance } from '../../../src/core/rules/assess-stance.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { adult, placedMarkers, recording, shippedSet, stand, without } from './stand-person.ts';

const set = shippedSet();
const looks = (positions: ReturnType<typeof placedMarkers>, session: Session = emptySession) =>
  new Map(assessStance(stand(positions, { session }), set, session).map((look) => [look.item.id, look]));

const bent = placedMarkers({ ...adult, left: { ...adult.left, kneeFlexionDeg: 40 } });

describe('assessStance', () => {
  it('finds nothing on a person who stands straight', () => {
    const all = [...looks(placedMarkers()).values()];
    expect(all.map(({ item }) => item.id)).toEqual([...set.stance, ...set.model!.posture].map(({ id }) => id));
    expect(all.every(({ status }) => status === 'pass')).toBe(true);
  });

  it('sees a bent knee on its side', () => {
    expect(looks(bent).get('knee-bent.left')).toMatchObject({ status: 'fail' });
    expect(looks(bent).get('knee-bent.right')).toMatchObject({ status: 'pass' });
    // Planted: the knee flexed by 40 degrees between the bones. Outer markers see the knee from outside: a few less.
    expect(looks(bent).get('knee-bent.left')!.description.value).toBeGreaterThan(30);
  });

  it('sees a trunk that leans', () => {
    const lean = looks(placedMarkers({ ...adult, trunkLeanDeg: 25 })).get('trunk-lean-forward')!;
    expect(lean.status).toBe('fail');
    expect(lean.description.value).toBeGreaterThan(15);
  });

  it('sees by the model what the knee does to hip and pelvis', () => {
    const seen = { hip: looks(bent).get('hip-bent.left')!, pelvis: looks(bent).get('pelvis-oblique')! };
    expect(seen.hip.description.value).toBeGreaterThan(
      looks(placedMarkers()).get('hip-bent.left')!.description.value + 12,
    );
    // The left leg is shorter by its bend, so the right side of the pelvis stands higher.
    expect(seen.pelvis).toMatchObject({ status: 'fail' });
    expect(seen.pelvis.description.value).toBeGreaterThan(5.5);
  });

  it('reads the pelvis as it was made', () => {
    const pelvis = looks(placedMarkers({ ...adult, pelvicSlopeDeg: 21 })).get('pelvis-tilted')!;
    expect(pelvis.description.value).toBeCloseTo(21, 6);
    expect(looks(placedMarkers({ ...adult, pelvicSlopeDeg: 40 })).get('pelvis-tilted')!.status).toBe('fail');
  });

  it('marks what rests on an estimate', () => {
    const estimated = (positions: ReturnType<typeof placedMarkers>) =>
      [...looks(positions).values()].filter((look) => look.estimated).map(({ item }) => item.id);
    expect(estimated(placedMarkers())).toEqual([]);
    expect(estimated(without(placedMarkers(), 'R_ME'))).toEqual(['hip-bent.right']);
  });

  it('expects what was recorded, on the recorded side', () => {
    const knee = (side: 'right' | 'left') => recording({ contractures: [{ joint: 'knee', side, angleDeg: 35 }] });
    expect(looks(bent, knee('left')).get('knee-bent.left')!.status).toBe('expected');
    expect(looks(bent, knee('right')).get('knee-bent.left')!.status).toBe('fail');
  });

  it('leaves out a look whose points are not seen, rather than guess', () => {
    expect(looks(without(placedMarkers(), 'L_GT')).has('knee-bent.left')).toBe(false);
    expect(looks(without(placedMarkers(), 'L_GT')).has('knee-bent.right')).toBe(true);
  });
});
