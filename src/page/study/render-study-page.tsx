import { sentence } from '../../core/report/sentence.ts';
import type { Agreement } from '../../core/study/judge-values.ts';
import { roundStudy } from '../../core/study/round-study.ts';
import type { StudyReport } from '../../core/study/study-report.ts';
import {
  angleBands,
  angleName,
  headlineOf,
  isJudged,
  meanings,
  modelsOf,
  placementName,
  recordOf,
  waysOf,
  worstOf,
} from '../../core/study/study-words.ts';
import { escapeStrings } from '../escape-strings.ts';
import { Section } from '../section.tsx';
import { sealStyle, standalonePage } from '../standalone-page.tsx';
import { pageStyle } from '../style/page-style.ts';
import { wideTableStyle } from '../style/wide-table-style.ts';
import { AgreementPlot } from './agreement-plot.tsx';
import { DotPlot } from './dot-plot.tsx';
import { studyStyle } from './study-style.ts';
import { AngleTable, CaptureTable, DistanceTable, LandmarkTable, PlacementTable } from './study-tables.tsx';

const style = sealStyle(pageStyle + wideTableStyle + studyStyle);

/** Plots of what costs most, and of the angles that repeat worst; the tables have everything. */
const plotted = { placements: 6, angles: 6 };

/** A repeatability study as one page that opens from disk and prints: the same report gives the same bytes. */
export function renderStudyPage(study: StudyReport): string {
  const report = escapeStrings(roundStudy(study));
  return standalonePage(
    report.title ?? 'How well placement repeats',
    style,
    <main>
      <div class="summary">
        <h1 class="page-title">{headlineOf(report)}</h1>
        <dl class="worst">
          {worstOf(report).map(([lead, text]) => (
            <div>
              <dt>{lead}</dt>
              <dd>{sentence(text)}</dd>
            </div>
          ))}
        </dl>
      </div>
      <Cautions report={report} />
      <DotPlots report={report} />
      <AgreementPlots report={report} />
      <PlacementTable report={report} />
      <AngleTable report={report} />
      <p class="small">{angleBands(report)}</p>
      <LandmarkTable report={report} />
      <DistanceTable report={report} />
      <Section id="meanings" title="What the figures are">
        <ul class="known">
          {[modelsOf(report), ...meanings].map((meaning) => (
            <li>{meaning}</li>
          ))}
        </ul>
      </Section>
      <Section id="record" title="Record of the study">
        <dl class="record">
          {[...recordOf(report), ['Program', `setsquare ${report.tool.version}`] as const].map(([name, text]) => (
            <div>
              <dt>{name}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      </Section>
      <CaptureTable report={report} />
    </main>,
  );
}

interface PartProps {
  readonly report: StudyReport;
}

function Cautions({ report: { cautions } }: PartProps) {
  if (cautions.length === 0) return null;
  return (
    <Section id="cautions" title="Before a figure is believed">
      <ul class="known">
        {cautions.map((caution) => (
          <li>{sentence(caution)}</li>
        ))}
      </ul>
    </Section>
  );
}

function DotPlots({ report }: PartProps) {
  const { captures } = report;
  const placements = report.placements.filter(isJudged).slice(0, plotted.placements);
  const angles = report.angles.filter(isJudged).slice(0, plotted.angles);
  if (placements.length + angles.length === 0) return null;
  return (
    <Section id="dots" title="Every capture, from the mean of its subject">
      <p class="small">
        A band for each assessor, in it a lane for each subject; a dot is a capture, a line joins the sessions of one
        assessor with one subject. The upright bar is the mean of the assessor: far from the middle it is what this
        assessor always does. Long lines are what differs from day to day.
      </p>
      <div class="charts wide">
        {placements.map((one) => (
          <DotPlot
            captures={captures}
            values={one.values}
            title={capital(placementName(one))}
            unit="mm"
            ways={waysOf(one.direction)}
          />
        ))}
        {angles.map((one) => (
          <DotPlot
            captures={captures}
            values={one.values}
            title={capital(angleName(one))}
            unit="degrees"
            ways={['', '']}
          />
        ))}
      </div>
    </Section>
  );
}

type Drawn = Agreement & { readonly limits: NonNullable<Agreement['limits']> };

function capital(name: string): string {
  return `${name.slice(0, 1).toUpperCase()}${name.slice(1)}`;
}

function hasLimits(agreement: Agreement | null): agreement is Drawn {
  return agreement !== null && agreement.limits !== null;
}

function AgreementPlots({ report }: PartProps) {
  const quantities = [
    ...report.placements
      .filter(isJudged)
      .slice(0, plotted.placements)
      .map((one) => ({ name: capital(placementName(one)), unit: 'mm', repeats: one.repeats })),
    ...report.angles
      .filter(isJudged)
      .slice(0, plotted.angles)
      .map((one) => ({ name: capital(angleName(one)), unit: 'degrees', repeats: one.repeats })),
  ];
  const plots = quantities.flatMap(({ name, unit, repeats: { within, between } }) => [
    ...(hasLimits(within)
      ? [{ title: `${name}, sessions of one assessor.`, each: 'session ', unit, agreement: within }]
      : []),
    ...(hasLimits(between) ? [{ title: `${name}, between assessors.`, each: '', unit, agreement: between }] : []),
  ]);
  if (plots.length === 0) return null;
  return (
    <Section id="agreement" title="Two readings of the same: difference against mean">
      <p class="small">
        Full line: mean difference; dashed: limits of agreement, between which 95 % of differences are expected; tinted:
        their 95 % intervals (Bland and Altman 1986). Drawn from six pairs on. Sessions of one assessor: first less
        second, over all assessors and subjects. Between assessors: the two who differ most on average.
      </p>
      <div class="charts wide">
        {plots.map((plot) => (
          <AgreementPlot {...plot} />
        ))}
      </div>
    </Section>
  );
}
