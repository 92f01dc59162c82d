import { describe, expect, it } from 'vitest';
import type { ReportedAngles } from '../../../src/core/report/report.ts';
import { writeAngles } from '../../../src/core/report/text-angles.ts';
import { TextPage } from '../../../src/core/report/text-page.ts';
import { buildReport } from './build-report.ts';

const angles: ReportedAngles = {
  values: [
    { joint: 'pelvis', motion: 'tilt', side: 'midline', deg: 11.74, usual: [-10, 36], estimated: false },
    { joint: 'hip', motion: 'flexion', side: 'right', deg: 9.06, usual: [-14, 36], estimated: true },
    { joint: 'ankle', motion: 'rotation', side: 'right', deg: -0.01, usual: null, estimated: true },
  ],
  measurements: [{ measure: 'kneeDiameter', side: 'right', mm: 97, from: 'stature' }],
  notComputed: [{ side: 'left', reason: 'not seen or not known: L_TW' }],
  says: 'Knee width estimated from stature.',
};

const written = (given: ReportedAngles | null): string => {
  const page = new TextPage({ columns: 80, color: false });
  writeAngles(page, buildReport({ angles: given }));
  return page.toString();
};

describe('joint angles in the text', () => {
  it('stand side by side, with what is estimated, what is missing and what is positive', () => {
    expect(written(angles)).toBe(`Joint angles in standing, by the lower-body model of the marker set
                 right / left
  Pelvic tilt            11.7       deg
  Hip flexion         9.1 / -  deg est.
  Foot rotation       0.0 / -  deg est.
  - Not computed on the left: not seen or not known: L_TW.
  - Knee width estimated from stature. Figures marked "est." rest on that.
  - Positive: pelvis tilted forward, its right side higher; flexed, adducted, in
    varus, turned inward; foot progression outward.
`);
  });

  it('are left out without a model', () => {
    expect(written(null).trim()).toBe('');
  });
});
