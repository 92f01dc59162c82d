import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatJson, formatJsonLine } from '../../../src/core/report/format-json.ts';
import type { Report } from '../../../src/core/report/report.ts';
import { buildFullReport, buildMove, buildReport, buildRule } from './build-report.ts';
import { validateClosedReport, validateReport } from './report-schema.ts';

function printed(report: Report) {
  return JSON.parse(formatJson([report]));
}

describe('formatJson', () => {
  it('prints one object for one trial and an array for several', () => {
    const report = buildReport();
    expect(printed(report).format).toBe('setsquare-report/1');
    const several = JSON.parse(formatJson([report, report]));
    expect(several).toHaveLength(2);
    expect(several[1]).toEqual(printed(report));
  });

  it.each([
    ['everything passed', buildReport()],
    ['something of everything', buildFullReport()],
    [
      'an unreadable file',
      buildReport({
        verdict: 'not-assessable',
        trial: { path: 'x.c3d', sha256: '', frames: null, rateHz: null, units: null, vertical: null, window: null },
        subject: { code: null },
        bodyAxes: null,
        markers: {},
        problems: [
          {
            code: 'file-unreadable',
            severity: 'error',
            markers: [],
            message: 'It is empty.',
            remedy: 'Export it again.',
          },
        ],
      }),
    ],
    [
      'a midline move and geometry',
      buildReport({
        moves: [buildMove({ marker: 'S1', side: 'midline', mm: { forward: 0, up: 4.04, left: -6 } })],
        norms: { name: 'adults', version: '1.0.0', origin: 'a published survey' },
        rules: [
          buildRule({
            geometry: {
              points: ['R_TW'],
              lines: [{ from: [0, 0, 0], to: [1.26, 2, 3] }],
              planes: [{ at: [0.04, 0, 0], along: [0, 0, 1], view: [0.12345678, 1, 0] }],
            },
          }),
        ],
      }),
    ],
  ])('follows the schema and has no field beyond it: %s', (_, report) => {
    const data = printed(report);
    validateReport(data);
    expect(validateReport.errors).toBeNull();
    validateClosedReport(data);
    expect(validateClosedReport.errors).toBeNull();
  });

  it.each([
    ['verdict', (report: Record<string, unknown>) => Object.assign(report, { verdict: 'fine' })],
    ['coverage', (report: Record<string, unknown>) => Object.assign(report, { coverage: { rules: 1, assessed: 1 } })],
    ['a missing field', (report: Record<string, unknown>) => Reflect.deleteProperty(report, 'moves')],
    ['a new field in a complete object', (report) => Object.assign(report.bodyAxes as object, { right: [0, 0, 1] })],
    ['a hash', (report) => Object.assign(report.trial as object, { sha256: 'A1' })],
  ] as [string, (report: Record<string, unknown>) => unknown][])(
    'is refused by the schema with a wrong %s',
    (_, spoil) => {
      const data = printed(buildFullReport());
      spoil(data);
      expect(validateReport(data)).toBe(false);
    },
  );

  it('may gain fields where the schema says so', () => {
    const data = printed(buildFullReport());
    data.later = 1;
    data.rules[0].later = 1;
    data.moves[0].later = 1;
    data.problems[0].later = 1;
    expect(validateReport(data)).toBe(true);
    expect(validateClosedReport(data)).toBe(false);
  });

  it('rounds each number to what its unit allows', () => {
    const data = printed(buildFullReport());
    expect(data.trial.rateHz).toBe(100);
    expect(data.trial.window.swayMm).toBe(1.3);
    expect(data.bodyAxes.forward).toEqual([0.99863, 0.052336, 0]);
    expect(data.markers.R_TW).toMatchObject({ mm: [-14.3, -210, 640.1], sdMm: 0.8, visible: 1 });
    expect(data.figure.segments[0].longAxis).toEqual({ from: [-20, -140, 450.3], to: [-60, -90.9, 860] });
    expect(data.sway.pelvis).toMatchObject({ forwardMm: [0.3, null], leftMm: [0, null] });
    expect(data.rules[0]).toMatchObject({ value: 14.2, target: 0, limit: 5, borderline: 1.5, uncertainty: 0.6 });
    expect(data.rules.find((rule: { unit: string }) => rule.unit === 'ratio')).toMatchObject({
      value: 0.143,
      range: [0.1, null],
    });
    expect(data.moves[0]).toMatchObject({
      mm: { forward: -14.2, up: 0, outward: 0 },
      turnDeg: 9.5,
      tipMm: 14.2,
      distanceMm: 14.2,
      uncertaintyMm: 2,
      probability: 0.82,
    });
    expect(data.moves[0].alternatives[0]).toMatchObject({ probability: 0.11, distanceMm: 14.2 });
    expect(data.moves[1].probability).toBeNull();
    expect(data.stance.measures[0].value).toBe(12.3);
    expect(data.stance.loadShare).toBe(0.535);
  });

  it('rounds what is drawn: places to 0.1 mm, directions to 0.000001', () => {
    const geometry = {
      points: ['R_TW'],
      lines: [{ from: [0.04, 1.26, 0], to: [1, 2, 3.333] }],
      planes: [{ at: [0.04, 1.26, 0], along: [0, 0.1234567, 1], view: [0.9876543, 0, 0] }],
    };
    expect(printed(buildReport({ rules: [buildRule({ geometry })] })).rules[0].geometry).toEqual({
      points: ['R_TW'],
      lines: [{ from: [0, 1.3, 0], to: [1, 2, 3.3] }],
      planes: [{ at: [0, 1.3, 0], along: [0, 0.123457, 1], view: [0.987654, 0, 0] }],
    });
  });

  it('rounds right and left alike and never prints -0, NaN or Infinity', () => {
    fc.assert(
      fc.property(fc.double({ min: -3000, max: 3000, noNaN: true }), (value) => {
        const right = printed(buildReport({ rules: [buildRule({ value })] })).rules[0].value as number;
        const left = printed(buildReport({ rules: [buildRule({ value: -value })] })).rules[0].value as number;
        expect(right + left).toBe(0);
        expect(Object.is(right, -0) || Object.is(left, -0)).toBe(false);
        expect(Math.abs(right - value)).toBeLessThanOrEqual(0.05 + 1e-9);
      }),
      { numRuns: 200 },
    );
    const odd = formatJson([
      buildReport({ rules: [buildRule({ value: Number.NaN, limit: Number.POSITIVE_INFINITY, target: -0.04 })] }),
    ]);
    expect(odd).not.toMatch(/NaN|Infinity|-0[,\s]/);
    expect(JSON.parse(odd).rules[0]).toMatchObject({ value: null, limit: null, target: 0 });
  });

  it('keeps a marker called __proto__ a marker', () => {
    const markers = JSON.parse('{"__proto__": {"mm": [1, 2, 3], "sdMm": 1, "visible": 1}}');
    expect(formatJson([buildReport({ markers })])).toContain('"__proto__"');
  });

  it('escapes what a terminal would obey and leaves the value the same', () => {
    const label = 'R_GT\u001b[31m\u009b2J\u202eTG\u2028\ud800\u{e0041}é';
    const report = buildReport({
      markers: { [label]: { mm: [1, 2, 3], sdMm: 1, visible: 1, called: 'wand', side: 'right' } },
    });
    for (const text of [formatJson([report]), formatJsonLine(report)]) {
      expect(text.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
      expect(Object.keys(JSON.parse(text).markers)).toEqual([label]);
    }
  });
});

describe('formatJsonLine', () => {
  it('prints the same report on one line', () => {
    const report = buildFullReport();
    const line = formatJsonLine(report);
    expect(line.indexOf('\n')).toBe(line.length - 1);
    expect(JSON.parse(line)).toEqual(printed(report));
  });
});
