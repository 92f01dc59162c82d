import type { RuleGeometry, Unit } from '../rule-kinds/rule-kind.ts';
import { jsonLine, jsonText } from './json-text.ts';
import type {
  MoveProposal,
  Report,
  ReportedAngles,
  ReportedComparisons,
  ReportedFigure,
  ReportedMarker,
  ReportedPlates,
  ReportedRule,
  ReportedStance,
  ReportedSwayCurve,
} from './report.ts';
import {
  decimalsOf,
  directionDecimals,
  massAndForceDecimals,
  probabilityDecimals,
  rateDecimals,
  roundTo,
} from './rounding.ts';

/** One object for one trial, an array for several (`shared/schemas/report.schema.json` describes each). */
export function formatJson(reports: readonly Report[]): string {
  const rounded = reports.map(roundReport);
  return jsonText(rounded.length === 1 ? rounded[0] : rounded);
}

/** One report on one line. */
export function formatJsonLine(report: Report): string {
  return jsonLine(roundReport(report));
}

/**
 * The report with every number rounded, once and only here: mm and degrees 0.1, ratios 0.001, probabilities 0.01,
 * parts of unit vectors 0.000001, kg and newtons 0.1. What is no finite number becomes null. Fields that it does not know pass unchanged.
 */
export function roundReport(report: Report): unknown {
  const { trial, bodyAxes, stance, plates } = report;
  return {
    ...report,
    trial: {
      ...trial,
      rateHz: trial.rateHz === null ? null : roundTo(rateDecimals, trial.rateHz),
      window: trial.window && { ...trial.window, swayMm: mm(trial.window.swayMm) },
    },
    bodyAxes: bodyAxes && {
      forward: bodyAxes.forward.map(part),
      left: bodyAxes.left.map(part),
      up: bodyAxes.up.map(part),
    },
    markers: mapValues(report.markers, roundMarker),
    figure: report.figure && roundFigure(report.figure),
    sway: report.sway && {
      ...report.sway,
      pelvis: roundCurve(report.sway.pelvis),
      feet: roundCurve(report.sway.feet),
    },
    stance: stance && roundStance(stance),
    plates: plates && roundPlates(plates),
    angles: report.angles && roundAngles(report.angles),
    rules: report.rules.map(roundRule),
    measurements: report.measurements.map((finding) => ({
      ...finding,
      probability: finding.probability === null ? null : roundTo(probabilityDecimals, finding.probability),
    })),
    sheetAgainstTrial: report.sheetAgainstTrial && roundComparisons(report.sheetAgainstTrial),
    moves: report.moves.map((move) => ({
      ...roundProposal(move),
      alternatives: move.alternatives.map(roundProposal),
    })),
    kept: report.kept.map((one) => ({ ...one, step: one.step && roundProposal(one.step) })),
  };
}

function roundMarker(marker: ReportedMarker): unknown {
  return {
    ...marker,
    mm: marker.mm.map(mm),
    sdMm: mm(marker.sdMm),
    visible: roundTo(decimalsOf.ratio, marker.visible),
  };
}

function roundFigure({ joins, segments }: ReportedFigure): unknown {
  const line = (ends: { from: readonly number[]; to: readonly number[] } | null): unknown =>
    ends && { from: ends.from.map(mm), to: ends.to.map(mm) };
  return {
    joins,
    segments: segments.map((segment) => ({
      ...segment,
      longAxis: line(segment.longAxis),
      forward: line(segment.forward),
    })),
  };
}

function roundCurve(curve: ReportedSwayCurve): unknown {
  const round = (value: number | null): number | null => value && mm(value);
  return { ...curve, forwardMm: curve.forwardMm.map(round), leftMm: curve.leftMm.map(round) };
}

function roundStance(stance: ReportedStance): unknown {
  return {
    ...stance,
    measures: stance.measures.map((measure) => ({
      ...measure,
      value: roundTo(decimalsOf[measure.unit], measure.value),
      range: measure.range.map((end) => inUnit(end, measure.unit)),
    })),
    loadShare: inUnit(stance.loadShare, 'ratio'),
  };
}

function roundPlates(plates: ReportedPlates): unknown {
  const round = (value: number | null) => (value === null ? null : roundTo(massAndForceDecimals, value));
  return {
    ...plates,
    massKg: round(plates.massKg),
    recordedMassKg: round(plates.recordedMassKg),
    each: plates.each.map((plate) => ({
      ...plate,
      upwardN: round(plate.upwardN),
      centreMm: plate.centreMm === null ? null : plate.centreMm.map(mm),
      outsideFootMm: plate.outsideFootMm && mm(plate.outsideFootMm),
    })),
  };
}

function roundRule(rule: ReportedRule): unknown {
  const { unit, target, range, geometry } = rule;
  return {
    ...rule,
    value: inUnit(rule.value, unit),
    ...(target === undefined ? {} : { target: inUnit(target, unit) }),
    ...(range === undefined ? {} : { range: range.map((end) => inUnit(end, unit)) }),
    limit: inUnit(rule.limit, unit),
    borderline: inUnit(rule.borderline, unit),
    uncertainty: inUnit(rule.uncertainty, unit),
    geometry: geometry && roundGeometry(geometry),
  };
}

function roundGeometry(geometry: RuleGeometry): unknown {
  return {
    ...geometry,
    lines: geometry.lines.map((line) => ({ ...line, from: line.from.map(mm), to: line.to.map(mm) })),
    planes: geometry.planes.map((plane) => ({
      ...plane,
      at: plane.at.map(mm),
      along: plane.along.map(part),
      view: plane.view.map(part),
    })),
  };
}

function roundComparisons({ compared, notCompared }: ReportedComparisons): unknown {
  return {
    compared: compared.map((one) => ({
      ...one,
      readMm: mm(one.readMm),
      foretoldMm: mm(one.foretoldMm),
      sdMm: mm(one.sdMm),
    })),
    notCompared,
  };
}

function roundProposal(proposal: MoveProposal): Record<string, unknown> {
  const rounded: Record<string, unknown> = { ...proposal };
  if (proposal.mm) rounded.mm = mapValues(proposal.mm, mm);
  for (const key of ['tipMm', 'baseMm', 'distanceMm', 'uncertaintyMm'] as const) {
    const value = proposal[key];
    if (value !== undefined) rounded[key] = mm(value);
  }
  if (proposal.turnDeg !== undefined) rounded.turnDeg = roundTo(decimalsOf.deg, proposal.turnDeg);
  if (proposal.changes) rounded.changes = roundChanges(proposal.changes);
  if (proposal.probability !== null) rounded.probability = roundTo(probabilityDecimals, proposal.probability);
  return rounded;
}

function roundAngles(angles: ReportedAngles): unknown {
  return {
    ...angles,
    values: angles.values.map((angle) => ({ ...angle, deg: deg(angle.deg) })),
    measurements: angles.measurements.map(roundLength),
  };
}

function roundLength(length: ReportedAngles['measurements'][number]): unknown {
  return { ...length, mm: mm(length.mm) };
}

function roundChanges(changes: NonNullable<MoveProposal['changes']>): unknown {
  return {
    ...changes,
    angles: changes.angles.map((angle) => ({ ...angle, deg: deg(angle.deg) })),
    crossTalk: changes.crossTalk.map((leak) => ({ ...leak, varusDeg: deg(leak.varusDeg) })),
    largestDeg: deg(changes.largestDeg),
    estimated: changes.estimated.map(roundLength),
  };
}

function deg(value: number): number | null {
  return roundTo(decimalsOf.deg, value);
}

function mm(value: number): number | null {
  return roundTo(decimalsOf.mm, value);
}

function part(value: number): number | null {
  return roundTo(directionDecimals, value);
}

function inUnit(value: number | null, unit: Unit): number | null {
  return value === null ? null : roundTo(decimalsOf[unit], value);
}

/** `fromEntries` defines its keys, so that a marker called `__proto__` stays a marker. */
function mapValues<Value>(record: Readonly<Record<string, Value>>, change: (value: Value) => unknown): unknown {
  return Object.fromEntries(Object.entries(record).map(([key, value]) => [key, change(value)]));
}
