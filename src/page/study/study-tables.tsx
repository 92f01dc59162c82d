import { fixed } from '../../core/report/rounding.ts';
import type { Repeatability } from '../../core/study/judge-values.ts';
import type { StudyReport } from '../../core/study/study-report.ts';
import {
  angleName,
  costText,
  estimateText,
  iccInWords,
  isJudged,
  offsetsOf,
  placementName,
  publishedPrecision,
  sourcesOf,
} from '../../core/study/study-words.ts';
import { Section } from '../section.tsx';
import { WideTable } from '../wide-table.tsx';

interface TablesProps {
  readonly report: StudyReport;
}

const errorHead = ['SEM, one assessor', 'SEM, any assessor', 'MDC95'];

function errorCells({ semWithin, semBetween, mdcBetween, mdcWithin }: Repeatability): string[] {
  return [estimateText(semWithin, 1), estimateText(semBetween, 1), fixed(1, (mdcBetween ?? mdcWithin)?.value ?? null)];
}

/** Every placement that could be told, what costs most in degrees first. */
export function PlacementTable({ report }: TablesProps) {
  const judged = report.placements.filter(isJudged);
  if (judged.length === 0) return null;
  return (
    <Section id="placements" title="Every placement, mm: what costs most in degrees first">
      <WideTable
        label="Table of placements"
        words={2}
        head={['Marker and way', 'Where the error comes from', ...errorHead, 'One SEM changes']}
        rows={judged.map((placement) => [
          placementName(placement),
          { first: sourcesOf(placement.repeats), second: offsetsOf(placement) },
          ...errorCells(placement.repeats),
          costText(placement.costs[0], placement.marker),
        ])}
      />
      {report.notTold.length === 0 ? null : (
        <p class="small">
          {`Could not be told apart from how the segment lay: ${report.notTold.map(({ marker, direction }) => `${marker} ${direction}`).join(', ')}.`}
        </p>
      )}
    </Section>
  );
}

export function AngleTable({ report }: TablesProps) {
  const judged = report.angles.filter(isJudged);
  if (judged.length === 0) return null;
  return (
    <Section id="angles" title="Joint angles in standing, degrees: the worst first">
      <WideTable
        label="Table of joint angles"
        words={1}
        head={['Angle', ...errorHead, 'From placing', 'ICC, one assessor', 'ICC, any assessor', 'In words']}
        rows={judged.map((angle) => {
          const { repeats, fromPlacingDeg } = angle;
          const icc = repeats.iccBetween ?? repeats.iccWithin;
          return [
            angleName(angle),
            ...errorCells(repeats),
            fixed(1, fromPlacingDeg),
            estimateText(repeats.iccWithin, 2),
            estimateText(repeats.iccBetween, 2),
            icc === null ? '-' : (iccInWords(icc, repeats.size.subjects) ?? 'too few subjects'),
          ];
        })}
      />
    </Section>
  );
}

export function LandmarkTable({ report: { landmarks } }: TablesProps) {
  if (landmarks.length === 0) return null;
  return (
    <Section id="landmarks" title="Markers in all directions together, mm, beside published precision">
      <WideTable
        label="Table of markers in all directions"
        words={1}
        head={['Marker', 'One assessor', 'Any assessor', 'Without']}
        rows={landmarks.map(({ marker, called, rmsWithinMm, rmsBetweenMm, without }) => [
          `${called} (${marker})`,
          fixed(1, rmsWithinMm),
          fixed(1, rmsBetweenMm),
          without.join(', '),
        ])}
      />
      <ul>
        {publishedPrecision.map((published) => (
          <li>{published}</li>
        ))}
      </ul>
    </Section>
  );
}

export function DistanceTable({ report }: TablesProps) {
  const judged = report.distances.filter(isJudged);
  if (judged.length === 0) return null;
  return (
    <Section id="distances" title="Distances between markers of one segment, mm: the worst first">
      <WideTable
        label="Table of distances"
        words={1}
        head={['Markers', ...errorHead]}
        rows={judged.map(({ markers, repeats }) => [markers.join(' to '), ...errorCells(repeats)])}
      />
    </Section>
  );
}

/** Each capture of the design, what it was and whether it was used. */
export function CaptureTable({ report: { captures } }: TablesProps) {
  return (
    <Section id="captures" title="Captures">
      <WideTable
        label="Table of captures"
        words={5}
        head={['Subject', 'Assessor', 'Session', 'Day', 'Trial']}
        rows={captures.map(({ subject, assessor, session, on, sha256, leftOut }) => [
          subject,
          assessor,
          session,
          on ?? 'no day',
          leftOut === null ? sha256.slice(0, 8) : `left out: ${leftOut}`,
        ])}
      />
    </Section>
  );
}
