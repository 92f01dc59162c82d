import type { Move, Report, ReportedRule } from '../../../src/core/report/report.ts';

/** A rule that passes, with whatever a test needs changed. */
export function buildRule(changes: Partial<ReportedRule> = {}): ReportedRule {
  return {
    id: 'thigh-wand-in-line.right',
    kind: 'point-in-line',
    title: 'Thigh wand in line with hip and knee, right',
    basis: 'construction',
    essential: false,
    side: 'right',
    markers: ['R_TW', 'R_GT', 'R_LE'],
    value: 1.24,
    unit: 'mm',
    target: 0,
    limit: 5.02,
    borderline: 1.5,
    uncertainty: 0.61,
    status: 'pass',
    reason: '',
    says: 'The right thigh wand is in line.',
    why: 'The wand gives the thigh its rotation in walking.',
    seen: 'From the outer side of the thigh.',
    source: 'Laboratory protocol.',
    geometry: null,
    ...changes,
  };
}

/** An order to turn a wand, with whatever a test needs changed. */
export function buildMove(changes: Partial<Move> = {}): Move {
  return {
    step: 1,
    action: 'move',
    marker: 'R_TW',
    landmark: 'right thigh wand',
    side: 'right',
    mm: { forward: -14.23, up: 0, outward: 0.04 },
    along: 'backward, toward the hamstrings',
    turnDeg: 9.46,
    tipMm: 14.23,
    baseMm: 6.1,
    distanceMm: 14.23,
    uncertaintyMm: 1.96,
    probability: null,
    resolves: ['thigh-wand-in-line.right'],
    dependsOn: [],
    instruction: 'Turn the right thigh wand backward, toward the hamstrings: 14 mm at its tip.',
    confirmBy: 'seen from the outer side, the wand tip covers the line from hip to knee.',
    why: 'it stands 14 mm in front of the line from the greater trochanter to the lateral epicondyle.',
    alternatives: [],
    tie: null,
    ...changes,
  };
}

/** A report in which everything passed, with whatever a test needs changed. */
export function buildReport(changes: Partial<Report> = {}): Report {
  const rules = changes.rules ?? [
    buildRule(),
    buildRule({
      id: 'thigh-wand-in-line.left',
      title: 'Thigh wand in line with hip and knee, left',
      side: 'left',
      value: -0.04,
      limit: 4.9,
    }),
    buildRule({
      id: 'pelvis-width-to-stature',
      title: 'Pelvis width against stature',
      basis: 'anatomy',
      side: 'midline',
      value: 0.14251,
      unit: 'ratio',
      range: [0.1, null],
    }),
  ];
  return {
    format: 'setsquare-report/1',
    tool: { version: '0.1.0' },
    verdict: 'ready',
    coverage: {
      rules: rules.length,
      assessed: rules.filter((rule) => rule.status !== 'not-assessed').length,
      essentialNotAssessed: [],
      unseen: [],
    },
    trial: {
      path: '/captures/Anna Example/standing-01.c3d',
      sha256: 'a1'.repeat(32),
      frames: 350,
      rateHz: 99.99999237,
      units: 'mm',
      vertical: '+Z',
      window: { firstFrame: 12, lastFrame: 212, swayMm: 1.2749 },
    },
    subject: { code: 'P-017' },
    markerSet: { name: 'lower-limb-wands-22', version: '1.0.0', sha256: 'b2'.repeat(32) },
    norms: null,
    bodyAxes: { forward: [0.99862953, 0.05233596, 0], left: [-0.05233596, 0.99862953, 0], up: [0, 0, 1] },
    markers: {
      R_TW: {
        mm: [-14.2678, -210.04, 640.05],
        sdMm: 0.849,
        visible: 0.99951,
        called: 'thigh wand',
        side: 'right',
      },
    },
    figure: {
      joins: [],
      segments: [
        {
          name: 'thigh.right',
          side: 'right',
          markers: ['R_TW'],
          longAxis: { from: [-20.04, -140, 450.26], to: [-60, -90.94, 860] },
          forward: null,
        },
      ],
    },
    sway: {
      frames: [1, 350],
      pelvis: { markers: ['R_ASIS'], forwardMm: [0.26, null], leftMm: [-0.04, null] },
      feet: { markers: [], forwardMm: [null, null], leftMm: [null, null] },
    },
    stance: null,
    angles: null,
    plates: null,
    rules,
    moves: [],
    stillFailing: [],
    kept: [],
    measurements: [],
    sheetAgainstTrial: null,
    notes: [],
    problems: [],
    ...changes,
  };
}

/** A trial with something of everything. */
export function buildFullReport(): Report {
  const rules = [
    buildRule({
      value: 14.23,
      status: 'fail',
      says: 'The right thigh wand stands 14 mm in front of the line from hip to knee.',
    }),
    buildRule({
      id: 'heel-height.left',
      title: 'Heel marker as high as the forefoot marker, left',
      side: 'left',
      value: 5.4,
      status: 'borderline',
      says: 'The left heel marker is 5 mm high.',
      reason: 'The limit lies within the uncertainty.',
    }),
    buildRule({
      id: 'asis-level',
      title: 'Iliac spines level',
      side: 'both',
      value: 18,
      limit: 10,
      status: 'accepted',
      reason: 'Leg length difference, measured; A. Clinician, 2026-03-02.',
      says: 'The right iliac spine is 18 mm higher.',
    }),
    ...buildReport().rules.slice(1),
    buildRule({
      id: 'malleoli.right',
      title: 'Malleolar axis, right',
      status: 'not-assessed',
      value: null,
      limit: null,
      borderline: null,
      uncertainty: null,
      says: '',
      reason: 'R_MM is not in the trial.',
    }),
    buildRule({
      id: 'malleoli.left',
      title: 'Malleolar axis, left',
      side: 'left',
      status: 'not-assessed',
      value: null,
      limit: null,
      borderline: null,
      uncertainty: null,
      says: '',
      reason: 'R_MM is not in the trial.',
    }),
  ];
  return buildReport({
    verdict: 'adjust',
    rules,
    moves: [
      buildMove({
        probability: 0.824,
        alternatives: [
          {
            side: 'right',
            distanceMm: 14.23,
            uncertaintyMm: 6.4,
            resolves: ['thigh-wand-in-line.right'],
            confirmBy: 'the trochanter turns under the finger.',
            why: 'the line from hip to knee would pass through the wand.',
            action: 'palpate-again',
            marker: 'R_GT',
            landmark: 'greater trochanter',
            probability: 0.11,
            instruction: 'Palpate the right greater trochanter again',
          },
        ],
      }),
      buildMove({
        step: 2,
        action: 'palpate-again',
        marker: 'L_ASIS',
        side: 'left',
        dependsOn: [1],
        instruction: 'Palpate the left anterior superior iliac spine again: about 15 mm down is expected.',
        why: 'the iliac spines differ by 18 mm in height.',
        confirmBy: 'the thumb hooks under the spine.',
      }),
      buildMove({
        step: 3,
        action: 'measure-again',
        instruction: 'Measure the left leg length again.',
        why: 'the readings differ by 3 cm.',
        confirmBy: 'two readings agree within 1 cm.',
      }),
      buildMove({ step: 4, dependsOn: [1, 2], instruction: 'Lower the left heel marker by 5 mm.' }),
    ],
    stillFailing: ['asis-level'],
    kept: [],
    notes: [
      { code: 'both-sides', rules: ['asis-level'], message: 'Both heel markers stand high by about the same amount.' },
    ],
    plates: {
      massKg: 63.449,
      recordedMassKg: 63,
      loadShareReason: '',
      each: [
        {
          number: 1,
          type: 2,
          reason: '',
          feet: ['right'],
          upwardN: 332.817,
          centreMm: [-31.449, -118.26, 0.04],
          outsideFootMm: 0,
          zeroed: true,
        },
        {
          number: 2,
          type: 4,
          reason: '',
          feet: ['left'],
          upwardN: 289.4,
          centreMm: [-29, 120, 0],
          outsideFootMm: 14.26,
          zeroed: true,
        },
        {
          number: 3,
          type: 9,
          reason: 'its type is 9, and types 1 to 4 are known here',
          feet: [],
          upwardN: null,
          centreMm: null,
          outsideFootMm: null,
          zeroed: false,
        },
      ],
    },
    stance: {
      measures: [
        {
          id: 'knee-bend.right',
          title: 'Knee bent, {side}'.replace('{side}', 'right'),
          side: 'right',
          value: 12.34,
          unit: 'deg',
          range: [null, 10],
          status: 'fail',
          estimated: false,
          says: 'The right knee is bent by 12 degrees.',
        },
        {
          id: 'trunk-lean',
          title: 'Trunk lean',
          side: 'midline',
          value: -0.01,
          unit: 'deg',
          range: [-6, 6],
          status: 'pass',
          estimated: true,
          says: '',
        },
      ],
      loadShare: 0.5349,
    },
    problems: [
      {
        code: 'marker-gap',
        severity: 'warning',
        markers: ['L_SW'],
        message: 'L_SW is hidden in 12 of 350 frames.',
        remedy: 'Turn the arm away from the hip and capture again.',
      },
    ],
  });
}
