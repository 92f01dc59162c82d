import { describe, expect, it } from 'vitest';
import type { DataChanges } from '../../../src/core/gait-model/data-changes.ts';
import { sayChanges } from '../../../src/core/moves/changes-words.ts';
import { wands22 } from '../../support/shipped-marker-sets.ts';

const markerOf = (label: string) => wands22.markers.find((marker) => marker.label === label)!;
const none: DataChanges = { angles: [], crossTalk: [], largestDeg: 0, band: 'under-2', estimated: [] };

describe('what a step changes, in words', () => {
  it('names three angles, the leak at 60 degrees and the band', () => {
    const changes: DataChanges = {
      angles: [
        { joint: 'hip', motion: 'rotation', side: 'right', deg: -6.31 },
        { joint: 'knee', motion: 'rotation', side: 'right', deg: 5.02 },
        { joint: 'knee', motion: 'flexion', side: 'right', deg: 1.6 },
        { joint: 'ankle', motion: 'rotation', side: 'right', deg: 1.4 },
      ],
      crossTalk: [{ side: 'right', atFlexionDeg: 60, varusDeg: -5.43 }],
      largestDeg: 6.31,
      band: 'over-5',
      estimated: [],
    };
    expect(sayChanges(changes, markerOf('R_TW'))).toBe(
      'hip rotation 6.3°, knee rotation 5.0°, knee flexion 1.6°; varus-valgus at 60° of knee flexion 5.4°: over 5 degrees.',
    );
  });

  it('says once what both sides share', () => {
    const changes: DataChanges = {
      ...none,
      angles: [
        { joint: 'hip', motion: 'flexion', side: 'right', deg: 7.2 },
        { joint: 'hip', motion: 'flexion', side: 'left', deg: 7.1 },
        { joint: 'pelvis', motion: 'tilt', side: 'midline', deg: 6.2 },
        { joint: 'hip', motion: 'rotation', side: 'left', deg: 2 },
        { joint: 'hip', motion: 'rotation', side: 'right', deg: -2 },
      ],
      largestDeg: 7.2,
      band: 'over-5',
    };
    expect(sayChanges(changes, markerOf('S1'))).toBe(
      'hip flexion 7.2° on both sides, pelvic tilt 6.2°, left hip rotation 2.0°: over 5 degrees.',
    );
  });

  it('marks what rests on an estimate', () => {
    const changes: DataChanges = {
      ...none,
      angles: [{ joint: 'ankle', motion: 'dorsiflexion', side: 'left', deg: 0.3 }],
      largestDeg: 0.3,
      estimated: [
        { measure: 'kneeDiameter', side: 'right', mm: 97, from: 'stature' },
        { measure: 'ankleDiameter', side: 'right', mm: 70, from: 'stature' },
      ],
    };
    expect(sayChanges(changes, markerOf('L_HEEL'))).toBe(
      'ankle dorsiflexion 0.3°: under 2 degrees. Knee width and ankle width estimated from stature.',
    );
  });

  it('tells a marker that guides from one that moves along the bone', () => {
    expect(sayChanges(none, markerOf('R_GT'))).toContain('others are placed by it');
    expect(sayChanges(none, markerOf('R_LE'))).toBe('No joint angle in standing.');
  });
});
