import { describe, expect, it } from 'vitest';
import { reportAngles } from '../../../src/core/report/report-angles.ts';
import { emptySession, type Session } from '../../../src/core/session/session.ts';
import { symmetricAdult } from '../../support/ordinary-people.ts';
import { medial20, wands22 } from '../../support/shipped-marker-sets.ts';
import { stand, without, withoutMedialMarkers } from '../rules/stand-person.ts';

const adult = symmetricAdult();
const tall: Session = {
  ...emptySession,
  measurements: [{ measure: 'stature', side: null, value: 1700, unit: 'mm' }],
};

describe('joint angles of a report', () => {
  it.each([wands22, medial20])('are told for pelvis and both legs: $name', (set) => {
    const { values, measurements, notComputed, says } = reportAngles(stand(adult, { set }), set, emptySession)!;
    expect(values).toHaveLength(2 + 2 * 9);
    expect(values.every(({ deg, estimated }) => Number.isFinite(deg) && !estimated)).toBe(true);
    expect(measurements.map(({ from }) => from)).toEqual(['markers', 'markers', 'markers', 'markers']);
    expect(notComputed).toEqual([]);
    expect(says).toBe('');
    const tilt = values.find(({ motion }) => motion === 'tilt')!;
    expect(tilt).toMatchObject({ joint: 'pelvis', side: 'midline', usual: [-10, 36] });
    // The person was made so: the line from sacrum to ASIS falls by 13 degrees.
    expect(tilt.deg).toBeCloseTo(13, 6);
    expect(values.find(({ motion, side }) => motion === 'rotation' && side === 'midline')).toBeUndefined();
  });

  it('are marked wherever they rest on an estimate, and only there', () => {
    const { values, measurements, says } = reportAngles(stand(withoutMedialMarkers(adult)), wands22, tall)!;
    const marked = new Set(values.filter(({ estimated }) => estimated).map(({ joint }) => joint));
    expect(marked).toEqual(new Set(['hip', 'knee', 'ankle']));
    expect(says).toBe('Knee width and ankle width estimated from stature.');
    // Knee: the line through figures from memory. Ankle: ANSUR II, sex not recorded.
    expect(measurements.find(({ measure }) => measure === 'kneeDiameter')!.mm).toBeCloseTo(18.4 + 0.0473 * 1700, 6);
    expect(measurements.find(({ measure }) => measure === 'ankleDiameter')!.mm).toBeCloseTo(0.0419 * 1700, 6);
  });

  it('say which leg has none, and why', () => {
    const { values, notComputed } = reportAngles(
      stand(without(adult, 'L_ME'), { set: medial20 }),
      medial20,
      emptySession,
    )!;
    expect(notComputed).toEqual([{ side: 'left', reason: 'not seen or not known: L_ME' }]);
    expect(values.some(({ side }) => side === 'left')).toBe(false);
    expect(values.some(({ side }) => side === 'right')).toBe(true);
  });
});
