import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatText } from '../../../src/core/report/format-text.ts';
import { displayWidth } from '../../../src/core/report/wrap-text.ts';
import { buildFullReport, buildMove, buildReport, buildRule } from './build-report.ts';

const plain = { columns: 80, color: false };
/** What a report says, whatever its line breaks. */
const said = (text: string) => text.replace(/\s+/g, ' ');

const walking =
  'If walking trials have already been recorded with these markers, move none unless the static and the walking trials are repeated; otherwise record the doubt.';
const stopping =
  'After two corrections, or at any tiredness, pain or dizziness: stop, offer the chair, and keep what there is.';

describe('the first line', () => {
  const firstSentences = (report: Parameters<typeof formatText>[0]) =>
    said(formatText(report, plain).split('\n\n')[0]!);

  const missing = {
    code: 'marker-missing',
    severity: 'error',
    markers: ['L_LE'],
    message: 'L_LE is not in the trial.',
    remedy: 'Put it on and capture again.',
  } as const;

  it('never says that nothing was found without how much was checked', () => {
    const rules = [
      ...buildReport().rules,
      buildRule({ id: 'x', status: 'not-assessed', value: null, limit: null, reason: 'R_ME is not in the trial.' }),
    ];
    expect(firstSentences(buildReport({ rules }))).toBe(
      'Nothing found. 3 of 4 checks could be made. This does not show that every marker is on its bone.',
    );
  });

  it('counts what is borderline or accepted beside nothing to do', () => {
    const rules = [
      buildRule({ status: 'borderline' }),
      buildRule({ status: 'accepted' }),
      buildRule({ status: 'accepted' }),
    ];
    expect(firstSentences(buildReport({ rules }))).toBe(
      'Nothing to do before walking, with 1 check borderline and 2 findings accepted in the session. 3 of 3 checks could be made. This does not show that every marker is on its bone.',
    );
  });

  it('says "Nothing found" only where there is nothing to read below', () => {
    const { stance } = buildFullReport();
    const warning = { ...missing, code: 'marker-gap', severity: 'warning' } as const;
    const note = { code: 'both-sides', rules: [], message: 'Both heels stand high.' };
    expect(firstSentences(buildReport({ stance }))).toContain(
      'Nothing to do before walking, with 1 measure of the stance outside the usual.',
    );
    expect(firstSentences(buildReport({ stance, problems: [warning], notes: [note, note] }))).toContain(
      'with 1 measure of the stance outside the usual, 1 warning about the trial and 2 notes.',
    );
  });

  it('counts the steps', () => {
    expect(firstSentences(buildReport({ verdict: 'adjust', moves: [buildMove()] }))).toBe(
      '1 step to do before walking. 3 of 3 checks could be made.',
    );
  });

  it('names problems that no step settles, and what to do about them before the evidence', () => {
    const text = formatText(buildReport({ verdict: 'adjust', moves: [buildMove()], problems: [missing] }), plain);
    expect(text.split('\n')[0]).toBe('1 step to do before walking, and 1 problem to settle. 3 of 3 checks could be');
    expect(text.indexOf('Do: Put it on and capture again.')).toBeLessThan(text.indexOf('1. Turn'));
    expect(text.split('L_LE is not in the trial.')).toHaveLength(2);
    expect(firstSentences(buildReport({ verdict: 'adjust', problems: [missing] }))).toBe(
      '1 problem to settle before walking. 3 of 3 checks could be made.',
    );
  });

  it('shows the first three problems at once and the others in the list below', () => {
    const problems = [1, 2, 3, 4, 5].map((index) => ({ ...missing, message: `Marker ${index} is not in the trial.` }));
    const text = formatText(buildReport({ verdict: 'adjust', problems }), plain);
    const [top, below] = text.split('After two corrections');
    expect(top).toMatch(/^5 problems to settle before walking\./);
    expect(top).toContain('2 more problems: see the list below.');
    expect(top?.match(/Marker \d/g)).toEqual(['Marker 1', 'Marker 2', 'Marker 3']);
    expect(below?.match(/Marker \d/g)).toEqual(['Marker 4', 'Marker 5']);
  });

  it('leaves swapped labels to the step that renames them', () => {
    const swapped = { ...missing, code: 'labels-swapped', message: 'R_GT and L_GT changed places.' } as const;
    const moves = [buildMove({ action: 'relabel', instruction: 'Exchange the labels R_GT and L_GT.' })];
    expect(firstSentences(buildReport({ verdict: 'adjust', moves, problems: [swapped] }))).toBe(
      '1 step to do before walking. 3 of 3 checks could be made.',
    );
    // "Everything below" was checked as if the labels were right: so the problem stands above the step.
    expect(formatText(buildReport({ verdict: 'adjust', moves, problems: [swapped] }), plain)).toMatch(
      /changed places\..*1\. Exchange the labels/s,
    );
  });

  it('lists no names where one reason holds for every check', () => {
    const rules = buildReport().rules.map((rule) => ({ ...rule, status: 'not-assessed', reason: 'no file' }) as const);
    const text = formatText(buildReport({ verdict: 'not-assessable', rules }), plain);
    expect(text).toContain('  - No file.\n    Every check (3 checks).\n');
    expect(text).toContain('This trial cannot be judged: no check could be made.');
  });

  it('says so when checks failed and no step is known', () => {
    expect(firstSentences(buildReport({ verdict: 'adjust', rules: [buildRule({ status: 'fail' })] }))).toBe(
      '1 check failed, and no single step would put it right. 1 of 1 check could be made.',
    );
  });

  it('says first that the patient never stood still', () => {
    const notStill = { ...missing, code: 'not-still', severity: 'warning' } as const;
    expect(firstSentences(buildReport({ problems: [notStill] }))).toMatch(
      /^The patient did not stand still, so only part could be checked\. Nothing to do before walking, with 1 warning/,
    );
  });

  it.each([
    [{ ...missing, code: 'file-unreadable' } as const, [], 'the file cannot be read'],
    [{ ...missing, code: 'not-still' } as const, [], 'the person was not still'],
    [null, ['asis-level'], '1 essential check could not be made'],
    [null, [], 'too few checks could be made'],
  ])('says why a trial cannot be judged (%#)', (problem, essentialNotAssessed, why) => {
    const report = buildReport({
      verdict: 'not-assessable',
      coverage: { rules: 38, assessed: 5, essentialNotAssessed, unseen: [] },
      problems: problem ? [problem] : [],
    });
    const text = formatText(report, plain);
    expect(said(text)).toContain(`This trial cannot be judged: ${why}. 5 of 38 checks could be made.`);
    expect(text).not.toContain('Nothing');
    if (problem) expect(text).toContain('Do: Put it on and capture again.');
  });
});

describe('the page', () => {
  it('shows what to do at 80 columns', () => {
    const text = formatText(buildFullReport(), plain);
    expect(text.slice(0, text.indexOf('If walking'))).toBe(`4 steps to do before walking. 5 of 7 checks could be made.

Trial:       standing-01.c3d, frames 12 to 212, sway 1.3 mm
Subject:     P-017
Marker set:  lower-limb-wands-22, version 1.0.0


  1. Turn the right thigh wand backward, toward the hamstrings: 14 mm at its
     tip.

     First mark its present place with a skin pen.
     Why: It stands 14 mm in front of the line from the greater trochanter to
          the lateral epicondyle.
     Confirm: Seen from the outer side, the wand tip covers the line from hip to
              knee.
     Judged over the whole body, this is most likely the marker that is off. It
     could also be the patient's right greater trochanter.


  2. Palpate the left anterior superior iliac spine again: about 15 mm down is
     expected.

     Only after step 1.
     First mark its present place with a skin pen.
     Why: The iliac spines differ by 18 mm in height.
     Confirm: The thumb hooks under the spine.


  3. Measure the left leg length again.

     Why: The readings differ by 3 cm.
     Confirm: Two readings agree within 1 cm.


  1 more step: see the list below. After these three, capture again.

  Still failing after every step: Iliac spines level.


`);
  });

  it('shows the evidence at 120 columns', () => {
    const text = formatText(buildFullReport(), { columns: 120, color: false });
    expect(text.slice(text.indexOf('Further steps'))).toBe(`Further steps, if the next capture still asks for them
  4. Lower the left heel marker by 5 mm. Only after steps 1 and 2.

Notes
  - Both heel markers stand high by about the same amount.

Not passed (3)

  Fail: Thigh wand in line with hip and knee, right (thigh-wand-in-line.right)
    14.2 mm; allowed -5.0 to 5.0 mm; uncertainty 0.6 mm (1 SD)
    The right thigh wand stands 14 mm in front of the line from hip to knee.
    Why: The wand gives the thigh its rotation in walking.
    Look: From the outer side of the thigh.

  Borderline: Heel marker as high as the forefoot marker, left (heel-height.left)
    5.4 mm; allowed -5.0 to 5.0 mm; uncertainty 0.6 mm (1 SD)
    The left heel marker is 5 mm high.
    Note: The limit lies within the uncertainty.
    Why: The wand gives the thigh its rotation in walking.
    Look: From the outer side of the thigh.

  Accepted: Iliac spines level (asis-level)
    18.0 mm; allowed -10.0 to 10.0 mm; uncertainty 0.6 mm (1 SD)
    The right iliac spine is 18 mm higher.
    Accepted: Leg length difference, measured; A. Clinician, 2026-03-02.
    Why: The wand gives the thigh its rotation in walking.
    Look: From the outer side of the thigh.

Passed, as the protocol places the markers (1)
                                              value      allowed
  Thigh wand in line with hip and knee, left    0.0  -4.9 to 4.9  mm

Passed, as bodies usually are (1)
                                value         allowed
  Pelvis width against stature  0.143  at least 0.100

Could not be checked (2)
  - R_MM is not in the trial.
    2 checks: Malleolar axis, right; Malleolar axis, left

Stance
                    value         usual
  Knee bent, right   12.3  at most 10.0  deg  outside
  Trunk lean          0.0   -6.0 to 6.0  deg     est.
  53 % of the weight is on the right foot.
  - The right knee is bent by 12 degrees.

Force plates (2 of 3 could be read)
           upward force       under        presses
  Plate 1         333 N  right foot         inside
  Plate 2         289 N   left foot  14 mm outside
  Together they carry 63.4 kg; recorded 63.0 kg.

Problems of the trial (1)
  Warning: L_SW is hidden in 12 of 350 frames.
    Do: Turn the arm away from the hip and capture again.

This report supports and never replaces palpation, the laboratory's protocol and licensed practice.
It is not certified as a medical device.
setsquare 0.1.0
`);
  });

  it('warns about walking trials wherever a marker may move, and nowhere else', () => {
    expect(said(formatText(buildFullReport(), plain))).toContain(walking);
    expect(said(formatText(buildReport(), plain))).not.toContain(walking);
  });

  it.each([
    ['ready', buildReport()],
    ['adjust', buildFullReport()],
    ['not-assessable', buildReport({ verdict: 'not-assessable' })],
  ])('always says when to stop and what it is not: %s', (_, report) => {
    const text = said(formatText(report, plain));
    expect(text).toContain(stopping);
    expect(text).toContain('supports and never replaces palpation');
    expect(text).toContain('not certified as a medical device');
  });

  it('puts both sides on one row where they are allowed the same', () => {
    const right = buildRule({ title: 'Foot direction', id: 'foot.right' });
    const left = buildRule({ title: 'Foot direction', id: 'foot.left', side: 'left', value: -3.36 });
    const row = (rules: ReturnType<typeof buildRule>[]) =>
      formatText(buildReport({ rules }), plain).match(/^ {2}Foot.*/gm);
    expect(row([right, left])).toEqual(['  Foot direction    1.2 / -3.4  -5.0 to 5.0  mm']);
    expect(row([right, { ...left, limit: 4 }])).toEqual([
      '  Foot direction, right    1.2  -5.0 to 5.0  mm',
      '  Foot direction, left    -3.4  -4.0 to 4.0  mm',
    ]);
  });

  it('asks for the skin pen before a marker is moved or palpated, and not before a reading', () => {
    const actions = ['move', 'palpate-again', 'measure-again', 'stand-again', 'relabel'] as const;
    const asks = actions.map((action) =>
      formatText(buildReport({ verdict: 'adjust', moves: [buildMove({ action })] }), plain).includes('skin pen'),
    );
    expect(asks).toEqual([true, true, false, false, false]);
  });

  it('shows at most three steps at once', () => {
    const moves = [1, 2, 3, 4, 5].map((step) => buildMove({ step, why: `reason ${step}` }));
    const text = formatText(buildReport({ verdict: 'adjust', moves }), plain);
    expect(text.match(/Why: Reason \d/g)).toEqual(['Why: Reason 1', 'Why: Reason 2', 'Why: Reason 3']);
    expect(text).toContain('2 more steps: see the list below.');
    expect(text).toContain('  5. Turn');
  });

  it('shows the name of the file and never its folders, whichever way the slashes lean', () => {
    for (const path of ['/captures/Anna Example/s.c3d', 'C:\\captures\\Anna Example\\s.c3d', 'Anna Example/s.c3d/']) {
      const { trial } = buildReport();
      const text = formatText(buildReport({ trial: { ...trial, path } }), plain);
      expect(text).toContain('Trial:       s.c3d');
      expect(text).not.toContain('Anna');
    }
  });

  it('adds colour without changing a word, and only where asked', () => {
    const colored = formatText(buildFullReport(), { columns: 80, color: true });
    const uncolored = formatText(buildFullReport(), plain);
    expect(colored).toContain('\u001b[');
    // biome-ignore lint/suspicious/noControlCharactersInRegex: the codes are what is taken out
    expect(colored.replace(/\u001b\[\d+m/g, '')).toBe(uncolored);
    expect(uncolored).not.toContain('\u001b');
  });

  it('shows no control character of a file, and no line beyond the columns', () => {
    const hostile = fc.oneof(
      fc.constantFrom(
        '\u001b]0;title\u0007',
        '\u009b31m',
        '\u202egnp.',
        'a\nb\r\u0000',
        '\u2066x',
        'W'.repeat(300),
        '漢字'.repeat(60),
      ),
      fc.string({ unit: 'binary', maxLength: 120 }),
    );
    fc.assert(
      fc.property(hostile, fc.integer({ min: 60, max: 140 }), (text, columns) => {
        const full = buildFullReport();
        const report = {
          ...full,
          trial: { ...full.trial, path: text },
          subject: { code: text },
          rules: full.rules.map((rule) => ({ ...rule, title: text, id: text, says: text, reason: text, why: text })),
          moves: full.moves.map((move) => ({ ...move, instruction: text, why: text, confirmBy: text })),
          problems: full.problems.map((problem) => ({ ...problem, message: text, remedy: text })),
        };
        const printed = formatText(report, { columns, color: false });
        expect(printed.replaceAll('\n', '')).not.toMatch(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/u);
        const widest = Math.max(...printed.split('\n').map(displayWidth));
        expect(widest).toBeLessThanOrEqual(columns);
      }),
      { numRuns: 150 },
    );
  });
});
