import { describe, expect, it } from 'vitest';
import type { MarkerPositions } from '../../sample-trials/landmarks.ts';
import { displace } from '../../sample-trials/plant-fault.ts';
import { symmetricAdult } from '../support/ordinary-people.ts';
import { checkPositions, failing, sessionWith } from '../support/still-trial.ts';

const rule = (report: ReturnType<typeof checkPositions>, id: string) => report.rules.find((one) => one.id === id)!;

describe('a foot in supination', () => {
  // The outer forefoot marker sits on the second metatarsal head, and the heel marker is level with it.
  const person = symmetricAdult({ left: { footSupinationDeg: 16, footProgressionDeg: 4 } });
  const supinated: MarkerPositions = new Map(person).set('L_MET5', person.get('L_MET2')!);
  const recorded = sessionWith({ variants: [{ id: 'foot-in-supination', side: 'left' }] });

  it('fails by the ordinary protocol and passes by its own', () => {
    expect(failing(checkPositions(supinated))).toContain('heels-alike');
    const report = checkPositions(supinated, {}, recorded);
    expect([report.verdict, failing(report), report.moves]).toEqual(['ready', [], []]);
    expect(rule(report, 'heels-alike')).toMatchObject({
      status: 'not-assessed',
      reason: 'recorded: foot in supination',
    });
    expect(report.notes.map(({ code }) => code)).toEqual(['variant']);
  });

  it('still has its heel levelled with the marker that stands in for the fifth metatarsal', () => {
    const report = checkPositions(displace(supinated, 'L_HEEL', { up: 13 }), {}, recorded);
    expect(failing(report)).toEqual(['heel-level.left']);
    expect(report.moves[0]!.mm!.up).toBeCloseTo(-13, 1);
  });

  it('says nothing of the other foot', () => {
    const report = checkPositions(displace(supinated, 'R_HEEL', { up: -13 }), {}, recorded);
    expect(failing(report)).toEqual(['heel-level.right']);
  });
});

describe('legs of different length', () => {
  // The left femur is 34 mm shorter: the pelvis falls to the left and the knee is as high as the other.
  const person = symmetricAdult({ left: { thighExtraMm: -34 } });
  const recorded = (mm: number) => sessionWith({ legLengthDifferenceMm: mm });

  it('fail when nothing is recorded, and do not when the difference is', () => {
    expect(failing(checkPositions(person)).sort()).toEqual(expect.arrayContaining(['asis-level', 'thighs-alike']));
    const report = checkPositions(person, {}, recorded(34));
    expect(failing(report)).toEqual([]);
    expect(rule(report, 'asis-level').target).toBe(34);
    expect(report.verdict).toBe('ready');
  });

  it('are worse, not better, when the difference is recorded the wrong way round', () => {
    expect(failing(checkPositions(person, {}, recorded(-34)))).toContain('asis-level');
    expect(failing(checkPositions(symmetricAdult(), {}, recorded(60)))).toContain('asis-level');
  });

  it('on a block are not compared in height', () => {
    const session = sessionWith({
      block: { side: 'left', heightMm: 34 },
      variants: [{ id: 'block-under-short-leg', side: 'left' }],
    });
    // On the block the whole left leg and the pelvis stand 34 mm higher.
    const raised = new Map(
      [...person].map(([label, [f, l, u]]) => [label, [f, l, label.startsWith('L_') ? u + 34 : u] as const]),
    );
    const report = checkPositions(raised as unknown as MarkerPositions, {}, session);
    for (const id of ['asis-level', 'knees-level', 'ankles-level', 'heels-alike', 'trochanters-level']) {
      expect(rule(report, id).status, id).toBe('not-assessed');
    }
    expect(failing(report).filter((id) => id.endsWith('level') || id.endsWith('heels-alike'))).toEqual([]);
  });
});

describe('a heel off the floor', () => {
  // The heel marker stands 40 mm higher than the forefoot marker, as the heel does.
  const person = displace(symmetricAdult(), 'R_HEEL', { up: 40 });
  const variant = { variants: [{ id: 'heel-off-floor', side: 'right' as const }] };

  it('is judged by the recorded heel height', () => {
    expect(failing(checkPositions(person))).toContain('heel-level.right');
    const report = checkPositions(person, {}, sessionWith({ ...variant, heelRaiseMm: { right: 40, left: null } }));
    expect(failing(report)).toEqual([]);
    expect(rule(report, 'heel-level.right')).toMatchObject({ status: 'pass', target: 40 });
  });

  it('is not judged where the height is not recorded', () => {
    const report = checkPositions(person, {}, sessionWith(variant));
    expect(rule(report, 'heel-level.right').status).toBe('not-assessed');
    expect(rule(report, 'heel-level.left').status).toBe('pass');
  });

  it('is still found too high against the recorded height', () => {
    const session = sessionWith({ ...variant, heelRaiseMm: { right: 15, left: null } });
    const report = checkPositions(person, {}, session);
    expect(failing(report)).toEqual(['heel-level.right']);
    expect(report.moves[0]!.mm!.up).toBeCloseTo(-25, 1);
  });
});

describe('a finding that leans on an estimate', () => {
  const bare = (positions: MarkerPositions) => new Map([...positions].filter(([label]) => !/_M[EM]$/.test(label)));
  const turned = bare(symmetricAdult({ right: { kneeTurnDeg: 16 }, left: { kneeTurnDeg: 16 } }));

  it('does not fail where the knee direction is not known, and says what to look at', () => {
    const report = checkPositions(turned);
    expect(failing(report).filter((id) => id.startsWith('thigh-wand'))).toEqual([]);
    expect(rule(report, 'thigh-wand-in-line.right')).toMatchObject({ status: 'borderline' });
    expect(rule(report, 'thigh-wand-in-line.right').reason).toContain('knee direction not known');
    expect(report.notes.map(({ code }) => code)).toContain('both-sides-alike');
  });

  it('passes where the assessor recorded it', () => {
    const session = sessionWith({ kneeTurnDeg: { right: 16, left: 16 }, tibialTorsionDeg: { right: 28, left: 28 } });
    const report = checkPositions(turned, {}, session);
    expect(rule(report, 'thigh-wand-in-line.right').status).toBe('pass');
    expect(rule(report, 'shank-wand-in-line.left').status).toBe('pass');
  });
});

describe('a pelvis that the model reads as far tilted', () => {
  const tilted = symmetricAdult({ pelvicSlopeDeg: 38 });
  const confirmed = sessionWith({}, { confirmed: [{ marker: 'S1', by: 'A1', on: '2026-03-02' }] });

  it('is no look at the stance while its marker is doubted', () => {
    const report = checkPositions(tilted);
    expect(report.stance!.measures.find(({ id }) => id === 'pelvis-tilted')).toMatchObject({ status: 'fail' });
    expect(report.moves.map(({ marker }) => marker)).toEqual(['S1']);
    expect(report.notes.filter(({ code }) => code === 'stance')).toEqual([]);
  });

  it('is one once the marker was confirmed on its bone', () => {
    const report = checkPositions(tilted, {}, confirmed);
    expect(report.moves).toEqual([]);
    const note = report.notes.find(({ code }) => code === 'stance')!;
    expect(note.message).toContain('the pelvis is tilted 38° forward');
  });
});
