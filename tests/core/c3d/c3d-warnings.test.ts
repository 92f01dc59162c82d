import { describe, expect, test } from 'vitest';
import { floatParameter, textParameter, wordParameter } from '../../../src/core/c3d/build-parameter.ts';
import { type C3dWarningCode, c3dWarningMeanings } from '../../../src/core/c3d/c3d-warnings.ts';
import type { C3dGroup } from '../../../src/core/c3d/read-c3d.ts';
import { readC3d } from '../../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../../src/core/c3d/read-points.ts';
import { inspectTrial } from '../../../src/core/inspect-trial.ts';
import {
  nextField,
  patched,
  plainTrial,
  plainValues,
  recordOffset,
  withFloat,
  withoutParameter,
  withWord,
} from './plain-trial.ts';

interface Planted {
  bytes: Uint8Array;
  /** warnings that come with it, when it is not the only one */
  also?: C3dWarningCode[];
  /** the points are not those of the plain trial */
  otherPoints?: true;
}

const plain = plainTrial();
const parametersOffset = 512;

function group(name: string, ...parameters: Parameters<typeof Map.prototype.set>[1][]): C3dGroup {
  return { name, description: '', parameters: new Map(parameters.map((parameter) => [parameter.name, parameter])) };
}

/** What a long list of parameters loses when it breaks off after POINT:SCALE. */
const lostAfterScale: C3dWarningCode[] = ['rate-missing', 'units-missing', 'labels-missing'];

const planted: Record<C3dWarningCode, () => Planted> = {
  'processor-unknown': () => ({ bytes: patched(plain, parametersOffset + 3, [0]) }),
  'parameters-beyond-file': () => ({
    bytes: patched(plain, 0, [200]),
    also: ['processor-unknown', 'scale-missing', 'data-start-missing', 'frame-count-missing', ...lostAfterScale],
  }),
  'parameter-block-missing': () => ({ bytes: patched(plain, 0, [0]) }),
  'parameters-unterminated': () => {
    const last = nextField(plain, 'USED', 2);
    const sectionEnd = parametersOffset + plain[parametersOffset + 2]! * 512;
    return { bytes: withWord(plain, last, sectionEnd - last) };
  },
  'parameters-broken-off': () => ({
    bytes: withWord(plain, nextField(plain, 'SCALE'), 30000),
    also: lostAfterScale,
  }),
  'parameter-unreadable': () => ({
    bytes: patched(plain, nextField(plain, 'UNITS') + 2, [7]),
    also: ['units-missing'],
  }),
  'parameter-repeated': () => {
    const bytes = plainTrial({ groups: [group('POINT', textParameter('UNITZ', 'm'))] });
    return { bytes: patched(bytes, recordOffset(bytes, 'UNITZ') + 6, [0x53]) };
  },
  'group-missing': () => ({
    bytes: patched(plain, recordOffset(plain, 'UNITS') + 1, [9]),
    also: ['units-missing'],
  }),
  'point-count-disagrees': () => ({ bytes: withWord(plain, 2, 40) }),
  'frame-count-disagrees': () => ({ bytes: withWord(plain, 8, 999) }),
  'frame-count-missing': () => ({ bytes: withoutParameter(plain, 'FRAMES') }),
  'frame-count-at-limit': () => {
    const frameCount = 65600;
    const values = plainValues(1, frameCount);
    const long = plainTrial({ labels: ['S1'], pointCount: 1, frameCount, values });
    const bytes = ['LONG_FRAMES', 'ACTUAL_START_FIELD', 'ACTUAL_END_FIELD'].reduce(
      (hidden, name) => withoutParameter(hidden, name),
      long,
    );
    return { bytes, otherPoints: true };
  },
  'first-frame-disagrees': () => ({
    bytes: plainTrial({
      groups: [group('TRIAL', wordParameter('ACTUAL_START_FIELD', 7, 0), wordParameter('ACTUAL_END_FIELD', 10, 0))],
    }),
  }),
  'data-start-disagrees': () => ({ bytes: withWord(plain, 16, 77) }),
  'data-start-missing': () => ({ bytes: withoutParameter(plain, 'DATA_START') }),
  'data-truncated': () => ({ bytes: plain.subarray(0, 1024 + 60), otherPoints: true }),
  'no-points': () => ({
    bytes: plainTrial({
      pointCount: 0,
      labels: [],
      values: new Float32Array(0),
      analog: { labels: ['plate z'], samplesPerFrame: 2, values: new Float32Array(8) },
    }),
    otherPoints: true,
  }),
  'scale-disagrees': () => ({ bytes: withFloat(plain, 12, -7) }),
  'scale-missing': () => ({ bytes: withoutParameter(plain, 'SCALE') }),
  'number-format-disagrees': () => {
    const values = plainValues(3, 40);
    return { bytes: withFloat(plainTrial({ frameCount: 40, values }), 12, 0.5), otherPoints: true };
  },
  'rate-disagrees': () => ({ bytes: withFloat(plain, 20, 50) }),
  'rate-missing': () => ({ bytes: plainTrial({ rateHz: null }) }),
  'units-missing': () => ({ bytes: plainTrial({ units: null }) }),
  'labels-missing': () => ({ bytes: withoutParameter(plain, 'LABELS') }),
  'labels-more-than-points': () => ({ bytes: plainTrial({ labels: ['R_ASIS', 'L_ASIS', 'S1', 'C7'] }) }),
  'labels-fewer-than-points': () => ({ bytes: plainTrial({ labels: ['R_ASIS', 'L_ASIS'] }) }),
  'labels-blank': () => ({ bytes: plainTrial({ labels: ['R_ASIS', ' ', 'S1'] }) }),
  'labels-repeated': () => ({ bytes: plainTrial({ labels: ['R_ASIS', 'S1', 'S1'] }) }),
  'analog-count-disagrees': () => {
    const analog = { labels: ['plate z'], samplesPerFrame: 40, values: new Float32Array(160) };
    return { bytes: withWord(plainTrial({ analog }), 4, 400) };
  },
  'residual-words-oversized': () => {
    const values = plainValues(3, 4);
    values[3] = 1.7e38;
    return { bytes: plainTrial({ values }), otherPoints: true };
  },
  'every-point-invalid': () => {
    const values = plainValues(3, 4).map((value, i) => (i % 4 === 3 ? -1 : value));
    return { bytes: plainTrial({ values }), otherPoints: true };
  },
};

test('the plain trial has no warning', () => {
  expect(inspectTrial(plain, '').warnings).toEqual([]);
  expect([...readPoints(readC3d(plain)).values]).toEqual([...plainValues(3, 4)]);
});

describe.each(Object.keys(c3dWarningMeanings) as C3dWarningCode[])('%s', (code) => {
  test('is given for the planted fault, with no other than what comes with it', () => {
    const { bytes, also = [], otherPoints } = planted[code]();
    const codes = inspectTrial(bytes, '').warnings.map((warning) => warning.code);
    expect(codes.toSorted()).toEqual([code, ...also].toSorted());
    if (otherPoints) return;
    expect([...readPoints(readC3d(bytes)).values]).toEqual([...plainValues(3, 4)]);
  });

  test('has a sentence of its own', () => {
    expect(c3dWarningMeanings[code]).toMatch(/^[A-Z].*\.$/);
  });
});

test('warnings name no labels, which may hold a name', () => {
  const { warnings } = inspectTrial(plainTrial({ labels: ['Doe:S1', 'Doe:S1', ''] }), '');
  expect(warnings.map(({ message }) => message)).toEqual([
    'Points without a label: 3.',
    'Points with the same label: 1 and 2.',
  ]);
});

test('what was chosen is said with its numbers', () => {
  const messages = (bytes: Uint8Array) => readC3d(bytes).warnings.map(({ message }) => message);
  expect(messages(withFloat(plain, 12, -7))).toEqual(["POINT:SCALE is -0.5, the header's scale -7; used -0.5."]);
  expect(messages(withWord(plain, 8, 999))).toEqual([
    'Stated frame counts differ: 4 (POINT:FRAMES), 999 (the header); used 4 from POINT:FRAMES.',
  ]);
  expect(messages(plain.subarray(0, 1024 + 60))).toEqual([
    'The file states 4 frames from byte 1024 and ends after 1; those were read.',
  ]);
  expect(messages(plainTrial({ groups: [group('POINT', floatParameter('FRAMES', 4))] }))).toEqual([]);
});
