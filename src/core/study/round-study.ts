import type { LimitsOfAgreement } from '../repeatability/limits-of-agreement.ts';
import { probabilityDecimals, roundTo } from '../report/rounding.ts';
import type { Agreement, Estimate, Repeatability } from './judge-values.ts';
import type { Measured, StudyReport } from './study-report.ts';

const tenth = (value: number): number => roundTo(1, value) ?? 0;
const hundredth = (value: number): number => roundTo(probabilityDecimals, value) ?? 0;

/** The report as programs read it: mm and degrees to a tenth, variances to a hundredth, shares to a hundredth. */
export function roundStudy(report: StudyReport): StudyReport {
  const orNull = (value: number | null): number | null => (value === null ? null : tenth(value));
  return {
    ...report,
    placements: report.placements.map((one) => ({
      ...one,
      ...measured(one),
      leverage: hundredth(one.leverage),
      costs: one.costs.filter(({ deg }) => tenth(deg) > 0).map((cost) => ({ ...cost, deg: tenth(cost.deg) })),
    })),
    landmarks: report.landmarks.map((one) => ({
      ...one,
      rmsWithinMm: orNull(one.rmsWithinMm),
      rmsBetweenMm: orNull(one.rmsBetweenMm),
    })),
    angles: report.angles.map((one) => ({
      ...one,
      ...measured(one),
      fromPlacingDeg: orNull(one.fromPlacingDeg),
      mostlyFrom: one.mostlyFrom && { ...one.mostlyFrom, deg: tenth(one.mostlyFrom.deg) },
    })),
    distances: report.distances.map((one) => ({ ...one, ...measured(one) })),
  };
}

function measured({ values, repeats }: Measured): Measured {
  return {
    values: values.map((value) => (value === null ? null : tenth(value))),
    repeats: repeats && roundRepeatability(repeats),
  };
}

function roundRepeatability(repeats: Repeatability): Repeatability {
  const { subject, assessor, subjectByAssessor, session } = repeats.variance;
  const square = (value: number | null): number | null => (value === null ? null : hundredth(value));
  return {
    ...repeats,
    variance: {
      subject: square(subject),
      assessor: square(assessor),
      subjectByAssessor: square(subjectByAssessor),
      session: hundredth(session),
    },
    semWithin: estimate(repeats.semWithin, tenth),
    semBetween: estimate(repeats.semBetween, tenth),
    semConsistency: estimate(repeats.semConsistency, tenth),
    mdcWithin: estimate(repeats.mdcWithin, tenth),
    mdcBetween: estimate(repeats.mdcBetween, tenth),
    iccWithin: estimate(repeats.iccWithin, hundredth),
    iccBetween: estimate(repeats.iccBetween, hundredth),
    offsets: repeats.offsets.map(({ assessor: code, by }) => ({ assessor: code, by: tenth(by) })),
    furthest: { ...repeats.furthest, by: tenth(repeats.furthest.by) },
    within: agreement(repeats.within),
    between: agreement(repeats.between),
  };
}

function estimate(told: Estimate | null, round: (value: number) => number): Estimate | null {
  return (
    told && { value: round(told.value), interval: told.interval && [round(told.interval[0]), round(told.interval[1])] }
  );
}

function agreement(told: Agreement | null): Agreement | null {
  return (
    told && {
      ...told,
      pairs: told.pairs.map(({ readings: [a, b], ...who }) => ({ ...who, readings: [tenth(a), tenth(b)] as const })),
      limits: told.limits && roundLimits(told.limits),
    }
  );
}

function roundLimits(limits: LimitsOfAgreement): LimitsOfAgreement {
  return Object.fromEntries(
    Object.entries(limits).map(([name, value]: [string, number | readonly number[]]) => [
      name,
      typeof value === 'number' ? tenth(value) : value.map(tenth),
    ]),
  ) as unknown as LimitsOfAgreement;
}
