import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { buildPlacings } from '../../sample-trials/build-practice.ts';
import { buildKneeBends, buildSample, buildSampleFiles } from '../../sample-trials/build-samples.ts';
import { SAMPLES } from '../../sample-trials/sample-list.ts';
import { readC3d } from '../../src/core/c3d/read-c3d.ts';
import { readPoints } from '../../src/core/c3d/read-points.ts';
import { distance, subtract, type Vec3 } from '../../src/core/geometry/vector.ts';
import { parseHistory } from '../../src/core/practice/history.ts';
import { parseSession } from '../../src/core/session/parse-session.ts';

const folder = new URL('../../sample-trials/', import.meta.url);
const files = buildSampleFiles();

describe('the sample trials', () => {
  it('are on disk exactly as the generator makes them, and nothing else is', () => {
    const onDisk = readdirSync(folder).filter((name) => /\.(c3d|json)$/.test(name));
    expect(onDisk.sort()).toEqual([...files.keys()].sort());
    for (const [name, content] of files) {
      const stored = readFileSync(new URL(name, folder));
      const made = typeof content === 'string' ? Buffer.from(content) : Buffer.from(content);
      expect(stored.equals(made), `${name} differs: run npx tsx sample-trials/generate.ts`).toBe(true);
      expect(stored.byteLength).toBeLessThan(300_000);
    }
  });

  it('and the knee bends beside them', () => {
    const bends = buildKneeBends();
    expect(readdirSync(new URL('knee-bends/', folder)).sort()).toEqual([...bends.keys()].sort());
    for (const [name, bytes] of bends) {
      expect(readFileSync(new URL(`knee-bends/${name}`, folder)).equals(bytes), name).toBe(true);
      expect(readC3d(bytes).warnings).toEqual([]);
    }
  });

  it('and the placings and the history for practice', () => {
    for (const [name, bytes] of buildPlacings()) {
      expect(readFileSync(new URL(`practice/${name}`, folder)).equals(bytes), name).toBe(true);
    }
    const { lines, unread } = parseHistory(readFileSync(new URL('practice/history.jsonl', folder), 'utf8'));
    expect(unread).toBe(0);
    expect(lines).toHaveLength(57);
  });

  it('read back as C3D without a warning, with the recorded values', () => {
    for (const sample of SAMPLES) {
      const { contents } = buildSample(sample).trial;
      const file = readC3d(files.get(`${sample.name}.c3d`) as Uint8Array);
      expect(file.warnings).toEqual([]);
      expect(file.truncated).toBe(false);
      expect(file.labels).toEqual([...contents.labels]);
      expect([file.rateHz, file.units, file.frameCount]).toEqual([100, contents.units, contents.frameCount]);
      expect(readPoints(file).values).toEqual(contents.values);
    }
  });

  it('hold what planted.json says was planted, and only that', () => {
    for (const sample of SAMPLES) {
      const { placed, inFile, planted } = buildSample(sample);
      const changed = [...placed.keys()].filter((label) => {
        const there = inFile.get(label);
        return there === undefined || distance(there, placed.get(label)!) > 0;
      });
      const said = planted.flatMap((one) => {
        if (one.kind === 'labels-exchanged') return one.markers;
        if (one.kind === 'variant') return ['L_MET5'];
        return 'marker' in one ? [one.marker] : [];
      });
      expect(changed.sort(), sample.name).toEqual([...said].sort());
      for (const one of planted) {
        if (one.kind !== 'displaced' && one.kind !== 'wand-turned') continue;
        const shift: Vec3 = subtract(inFile.get(one.marker)!, placed.get(one.marker)!);
        expect(distance(shift, [one.mm.forward, one.mm.left, one.mm.up])).toBeCloseTo(0, 9);
        expect(distance(shift, [0, 0, 0])).toBeCloseTo(one.distanceMm, 9);
      }
    }
  });

  it('plants the sizes that README.md names', () => {
    const distanceMm = (name: string, marker: string): number => {
      const { placed, inFile } = buildSample(SAMPLES.find((sample) => sample.name === name)!);
      return distance(placed.get(marker)!, inFile.get(marker)!);
    };
    expect(distanceMm('sacral-high', 'S1')).toBeCloseTo(65, 9);
    expect(distanceMm('heel-low', 'L_HEEL')).toBeCloseTo(11, 9);
    expect(distanceMm('wand-forward', 'R_TW')).toBeCloseTo(2 * 98 * Math.sin((4.5 * Math.PI) / 180), 0);
    expect(distanceMm('turned-wands-both-sides', 'L_TW')).toBeCloseTo(2 * 98 * Math.sin((4 * Math.PI) / 180), 0);
  });

  it('levels the supinated heel with the marker that stands in for the fifth metatarsal', () => {
    const { inFile } = buildSample(SAMPLES.find((sample) => sample.name === 'supinated-foot')!);
    expect(inFile.get('L_MET5')).toEqual(inFile.get('L_MET2'));
    expect(Math.abs(inFile.get('L_HEEL')![2] - inFile.get('L_MET5')![2])).toBeLessThan(1);
  });

  it('come with session files that parse, measured within a few millimetres of the truth', () => {
    const sessions = [...files.keys()].filter((name) => name.endsWith('.session.json'));
    expect(sessions).toEqual([
      'child-well-placed.session.json',
      'supinated-foot.session.json',
      'on-force-plates.session.json',
    ]);
    for (const name of sessions) {
      const session = parseSession(files.get(name) as string);
      const { placed, sample } = buildSample(SAMPLES.find((one) => name.startsWith(one.name))!);
      expect(session.subject.code).toBe(sample.code);
      for (const { measure, side, value } of session.measurements) {
        if (measure !== 'legLength') continue;
        const prefix = side === 'right' ? 'R_' : 'L_';
        const trueMm = distance(placed.get(`${prefix}ASIS`)!, placed.get(`${prefix}MM`)!);
        expect(Math.abs(value - trueMm)).toBeLessThan(5);
      }
      for (const [side, prefix, outward] of [
        ['right', 'R_', -1],
        ['left', 'L_', 1],
      ] as const) {
        const axis = subtract(placed.get(`${prefix}LE`)!, placed.get(`${prefix}ME`)!);
        const turnDeg = (Math.atan2(-axis[0], outward * axis[1]) * 180) / Math.PI;
        expect(Math.abs(session.facts.kneeTurnDeg[side]! - turnDeg)).toBeLessThanOrEqual(0.5);
      }
    }
    expect(parseSession(files.get(sessions[1]!) as string).facts.variants).toEqual([
      { id: 'foot-in-supination', side: 'left' },
    ]);
  });
});
