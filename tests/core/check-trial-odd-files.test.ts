import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { remove } from '../../sample-trials/plant-fault.ts';
import { type C3dContents, writeC3d } from '../../src/core/c3d/write-c3d.ts';
import { formatJson } from '../../src/core/report/format-json.ts';
import type { Report } from '../../src/core/report/report.ts';
import { symmetricAdult } from '../support/ordinary-people.ts';
import { medial20, wands22 } from '../support/shipped-marker-sets.ts';
import { checkBytes, checkPositions, failing, stillContents } from '../support/still-trial.ts';

const adult = symmetricAdult();
const whole = stillContents(adult, { frames: 60 });
const codes = (report: Report) => report.problems.map(({ code }) => code);

/** Fails where a number anywhere in a report is none. */
function expectFinite(value: unknown, path = 'report'): void {
  if (typeof value === 'number') expect(Number.isFinite(value), path).toBe(true);
  else if (typeof value === 'string') expect(value, path).not.toMatch(/\bNaN\b|Infinity|undefined/);
  else if (value !== null && typeof value === 'object') {
    for (const [key, part] of Object.entries(value)) expectFinite(part, `${path}.${key}`);
  }
}

function check(contents: C3dContents): Report {
  const report = checkBytes(writeC3d(contents));
  expectFinite(report);
  expect(report.rules).toHaveLength(wands22.rules.length);
  return report;
}

/** The trial with the values of some points set, frame by frame. */
function withPoint(label: string, write: (values: Float32Array, at: number, frame: number) => void): C3dContents {
  const values = Float32Array.from(whole.values);
  const point = whole.labels.indexOf(label);
  for (let frame = 0; frame < whole.frameCount; frame += 1)
    write(values, (frame * whole.pointCount + point) * 4, frame);
  return { ...whole, values };
}

describe('files that are hardly a trial', () => {
  it('nothing and noise are unreadable', () => {
    for (const bytes of [new Uint8Array(0), new Uint8Array(700), Uint8Array.from({ length: 4000 }, (_, i) => i * 7)]) {
      const report = checkBytes(bytes);
      expect([report.verdict, ...codes(report)]).toEqual(['not-assessable', 'file-unreadable']);
      expectFinite(report);
    }
  });

  it('one frame is judged, with the warning that stillness cannot be told from it', () => {
    const report = check(stillContents(adult, { frames: 1 }));
    expect([report.verdict, failing(report)]).toEqual(['ready', []]);
    expect(report.problems.map(({ code }) => code)).toEqual(['frames-too-few']);
    expect(report.trial.window).toMatchObject({ firstFrame: 1, lastFrame: 1, swayMm: 0 });
  });

  it('no frame, no point, no valid point: nobody stands there', () => {
    const none = { frameCount: 0, values: new Float32Array(0) };
    for (const contents of [
      { ...whole, ...none },
      { ...whole, ...none, labels: [], pointCount: 0 },
      { ...whole, values: Float32Array.from(whole.values, (value, index) => (index % 4 === 3 ? -1 : value)) },
      { ...whole, values: new Float32Array(whole.values.length).fill(Number.NaN) },
      { ...whole, values: new Float32Array(whole.values.length) },
    ]) {
      const report = check(contents);
      expect([report.verdict, report.moves]).toEqual(['not-assessable', []]);
      expect(report.problems.some(({ severity }) => severity === 'error')).toBe(true);
    }
  });

  it('a trial cut anywhere is checked as far as it goes, or said to be unreadable', () => {
    const bytes = writeC3d(stillContents(adult, { frames: 200 }));
    for (let share = 1; share < 40; share += 1) {
      const report = checkBytes(bytes.subarray(0, Math.floor((bytes.length * share) / 40)));
      expectFinite(report);
      expect(codes(report).some((code) => code === 'file-truncated' || code === 'file-unreadable')).toBe(true);
      if (codes(report).includes('file-truncated') && report.trial.frames! > 0) expect(report.verdict).toBe('ready');
    }
  });

  it('positions that are no number count as not seen', () => {
    for (const bad of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY]) {
      const once = check(
        withPoint('R_HEEL', (values, at, frame) => {
          if (frame % 3 === 0) values[at + 1] = bad;
        }),
      );
      expect([once.verdict, ...codes(once)]).toEqual(['ready', 'marker-gap']);
      const always = check(
        withPoint('R_HEEL', (values, at) => {
          values[at + 2] = bad;
        }),
      );
      expect([always.verdict, ...codes(always)]).toEqual(['adjust', 'marker-missing']);
    }
  });

  it('positions far out of any room break nothing', () => {
    for (const far of [1e6, 1e20, 3e38, -3e38, 1e-40]) {
      for (const label of ['R_HEEL', 'S1', 'L_ASIS', 'R_LE', 'C7']) {
        check(
          withPoint(label, (values, at) => {
            values[at] = far;
          }),
        );
        check(
          withPoint(label, (values, at) => {
            values.fill(far, at, at + 3);
          }),
        );
      }
    }
  });

  it('two markers on one spot break nothing', () => {
    const labels = [...adult.keys()].filter((label) => whole.labels.includes(label));
    labels.forEach((first, index) => {
      // Each with its next few in the order of the body, which share the most rules.
      for (const second of labels.slice(index + 1, index + 4)) {
        expectFinite(checkPositions(new Map(adult).set(first, adult.get(second)!)));
      }
    });
  });
});

describe('markers that are not there', () => {
  it.each([wands22, medial20])('one by one are told, and the rest is judged: $name', (set) => {
    for (const { label, presence } of set.markers) {
      if (!adult.has(label)) continue;
      const report = checkPositions(remove(adult, label), { set });
      expectFinite(report);
      const missing = report.problems.filter(({ code }) => code === 'marker-missing').flatMap(({ markers }) => markers);
      expect(missing, label).toEqual(presence === 'required' ? [label] : []);
      expect(report.rules.every(({ status, markers }) => status === 'not-assessed' || !markers.includes(label))).toBe(
        true,
      );
      expect(failing(report)).toEqual([]);
    }
  });

  it('both ASIS: nothing has a place', () => {
    const report = checkPositions(['R_ASIS', 'L_ASIS'].reduce(remove, adult));
    expect(report.verdict).toBe('not-assessable');
    expect(codes(report)).toContain('marker-missing');
  });

  it('any at all, in any number, never make a number that is none', () => {
    fc.assert(
      fc.property(fc.subarray([...adult.keys()]), fc.constantFrom(wands22, medial20), (gone, set) => {
        const report = checkPositions(gone.reduce(remove, adult), { set });
        expectFinite(report);
        expect(['ready', 'adjust', 'not-assessable']).toContain(report.verdict);
        expect(() => JSON.parse(formatJson([report]))).not.toThrow();
      }),
      { numRuns: 80 },
    );
  });
});

describe('labels', () => {
  it('of a second person beside the first are told as doubles, and the one seen most is judged', () => {
    const beside = new Map([...adult].map(([label, [f, l, u]]) => [label, [f, l + 900, u] as const]));
    const second = stillContents(beside as unknown as typeof adult, { frames: 60 });
    const values = new Float32Array(whole.values.length * 2);
    const width = whole.pointCount * 4;
    for (let frame = 0; frame < 60; frame += 1) {
      const hers = second.values.slice(frame * width, (frame + 1) * width);
      // The second one is hidden in every other frame.
      if (frame % 2 === 1) for (let at = 3; at < width; at += 4) hers[at] = -1;
      values.set(hers, frame * width * 2);
      values.set(whole.values.slice(frame * width, (frame + 1) * width), frame * width * 2 + width);
    }
    const labels = [...whole.labels.map((label) => `B:${label}`), ...whole.labels.map((label) => `A:${label}`)];
    const report = check({ ...whole, labels, pointCount: whole.pointCount * 2, values });
    expect(new Set(codes(report))).toEqual(new Set(['labels-duplicate']));
    expect(report.problems.flatMap(({ markers }) => markers).sort()).toEqual([...whole.labels].sort());
    expect(report.rules.map(({ value }) => value)).toEqual(check(whole).rules.map(({ value }) => value));
  });

  it('that are hostile are just labels', () => {
    const labels = whole.labels.map((label, index) =>
      label === 'C7' ? '__proto__' : index === 3 ? 'constructor' : label,
    );
    const report = check({ ...whole, labels });
    expect(codes(report)).toContain('marker-missing');
    expect(Object.getPrototypeOf(report.markers)).toBe(Object.prototype);
  });

  it('in fewer or greater number than the points', () => {
    expect(check({ ...whole, labels: [...whole.labels, 'R_HEEL', 'X'] }).verdict).toBe('ready');
    expect(codes(check({ ...whole, labels: whole.labels.slice(0, -1) }))).toEqual(['marker-missing']);
  });
});

describe('labels of another marker set', () => {
  it('are said not to fit before anything else', () => {
    const report = check({ ...whole, labels: whole.labels.map((_, index) => `P${index + 1}`) });
    expect(report.verdict).toBe('not-assessable');
    expect(report.problems[0]).toMatchObject({ code: 'marker-missing', severity: 'error' });
    expect(report.problems[0]!.message).toMatch(
      /^The labels of this trial do not fit the marker set lower-limb-wands-22: 22 of 22 required ones are not there \(C7, /,
    );
    expect(report.problems[0]!.remedy).toContain('marker set that the trial was made with');
  });

  it('that leave no line from back to front do not tell which way the patient faces', () => {
    const kept = new Set(['R_ASIS', 'L_ASIS', 'R_HEEL', 'L_HEEL', 'R_LM', 'L_LM', 'R_LE', 'L_LE']);
    const report = check({ ...whole, labels: whole.labels.map((label) => (kept.has(label) ? label : `X ${label}`)) });
    expect(report.verdict).toBe('not-assessable');
    const facing = report.problems.find(({ code }) => code === 'facing-unclear')!;
    expect(facing.severity).toBe('error');
    expect(facing.message).toContain('no line is complete (from the sacral marker to the ASIS; ');
  });
});

describe('units and rates', () => {
  it('that are missing are found on the body, and told', () => {
    for (const units of ['mm', 'm', 'cm'] as const) {
      const stated = checkPositions(adult, { units });
      const unstated = checkPositions(adult, { units, contents: { units: null } });
      expect(codes(unstated)).toEqual(['units-implausible']);
      expect(unstated.trial.units).toBe(units);
      expect(unstated.rules.map(({ value }) => value)).toEqual(stated.rules.map(({ value }) => value));
    }
  });

  it('that make no person are an error', () => {
    const tiny = stillContents(adult);
    const report = check({
      ...tiny,
      values: Float32Array.from(tiny.values, (value, index) => (index % 4 === 3 ? value : value / 1e5)),
    });
    expect([report.verdict, ...codes(report)]).toEqual(['not-assessable', 'units-implausible']);
  });

  it('that are absurd break nothing', () => {
    for (const rateHz of [0.01, 1, 1e6]) check({ ...whole, rateHz });
  });
});
