import { sentence } from '../../core/report/sentence.ts';
import { escapeStrings } from '../../page/escape-strings.ts';
import { Section } from '../../page/section.tsx';
import { sealStyle, standalonePage } from '../../page/standalone-page.tsx';
import { pageStyle } from '../../page/style/page-style.ts';
import { wideTableStyle } from '../../page/style/wide-table-style.ts';
import type { AuditReport, GroupChart } from '../analysis/audit-report.ts';
import {
  daysOf,
  findingAdvice,
  findingFigures,
  findingTitle,
  forLearning,
  headlineOf,
  incompleteOf,
  lookedForOf,
  missingOf,
  problemsOf,
  verdictsOf,
  versionOf,
} from '../report/audit-words.ts';
import { roundAudit } from '../report/round-audit.ts';
import { auditStyle } from './audit-style.ts';
import { CaseMixTable, MarkerTable, OffsetTables, RuleTable } from './audit-tables.tsx';
import { GroupChartFigure } from './group-chart-figure.tsx';
import { ReexaminationList, UnreadableList } from './reexamination-list.tsx';

const style = sealStyle(pageStyle + wideTableStyle + auditStyle);

/** The audit as one page that opens from disk and prints: the same report gives the same bytes. */
export function renderAuditPage(audit: AuditReport): string {
  const report = escapeStrings(roundAudit(audit));
  return standalonePage(
    `Audit of standing trials, ${daysOf(report.scope)}`,
    style,
    <main>
      <div class="summary">
        <h1 class="page-title">{headlineOf(report)}</h1>
        <p class="identity">{`${daysOf(report.scope)}; ${verdictsOf(report)}. ${lookedForOf(report)}`}</p>
        {incompleteOf(report).map((line) => (
          <p class="incomplete">{line}</p>
        ))}
        <p class="learning">{forLearning}</p>
      </div>
      <Findings report={report} />
      <Charts report={report} />
      <ReexaminationList reexamine={report.reexamine} />
      <UnreadableList unreadable={report.unreadable} />
      <RuleTable rules={report.rules} />
      <MarkerTable markers={report.markers} />
      <OffsetTables offsets={report.offsets} signs={report.signs} />
      <CaseMixTable caseMix={report.caseMix} />
      <Missing report={report} />
      <Records report={report} />
    </main>,
  );
}

function Findings({ report }: { readonly report: AuditReport }) {
  if (report.findings.length === 0) return null;
  return (
    <Section id="findings" title="What many trials show and one does not">
      <ol class="findings">
        {report.findings.map((finding) => (
          <li class="finding">
            <h3>{findingTitle(finding)}</h3>
            <p class="says">{sentence(finding.says)}</p>
            <p>{sentence(findingFigures(finding))}</p>
            <p>{findingAdvice(finding)}</p>
          </li>
        ))}
      </ol>
    </Section>
  );
}

/** Charts of what was found first; of the others the mean of both sides, and one side where it lies outside now. */
function Charts({ report }: { readonly report: AuditReport }) {
  const isFound = ({ by, group, rule, side }: GroupChart): boolean =>
    by === 'assessor' &&
    report.findings.some((found) => found.assessor === group && found.rule === rule && found.side === side);
  const others = report.charts.filter((chart) => !isFound(chart));
  const ofAssessors = others.filter(({ by }) => by === 'assessor');
  const shown = [
    ...report.charts.filter(isFound),
    ...ofAssessors.filter(isOfBoth),
    ...ofAssessors.filter((chart) => !isOfBoth(chart) && chart.points.at(-1)!.isAverageOutside),
  ];
  const ofSites = others.filter((chart) => chart.by === 'site' && isOfBoth(chart));
  if (shown.length + ofSites.length === 0) return null;
  return (
    <Section id="charts" title="Over time">
      <p class="small">
        Each dot is a visit, a diamond one outside its limits (dashed). The line is a moving average (EWMA, weight 0.2
        on the newest visit) with its own limits (dotted); where it is thick it lies outside them. The tinted band is
        what the protocol allows a single trial. A point outside is a reason to look, not a finding: with many charts
        some fall outside by chance.
      </p>
      <ChartGrid charts={shown} />
      {ofSites.length === 0 ? null : (
        <details open={shown.length === 0}>
          <summary>{`The same by site (${ofSites.length})`}</summary>
          <ChartGrid charts={ofSites} />
        </details>
      )}
    </Section>
  );
}

function isOfBoth({ side }: GroupChart): boolean {
  return side === 'both' || side === 'midline';
}

function ChartGrid({ charts }: { readonly charts: readonly GroupChart[] }) {
  return (
    <div class="charts wide">
      {charts.map((chart) => (
        <GroupChartFigure chart={chart} />
      ))}
    </div>
  );
}

function Missing({ report }: { readonly report: AuditReport }) {
  const lines = [...missingOf(report), ...problemsOf(report)];
  return (
    <>
      {lines.length === 0 ? null : (
        <Section id="missing" title="What is missing, and problems met">
          <ul>
            {lines.map((line) => (
              <li>{line}</li>
            ))}
          </ul>
        </Section>
      )}
      {report.versions.length === 0 ? null : (
        <Section id="versions" title="Judged by">
          <ul>
            {report.versions.map((version) => (
              <li>{versionOf(version)}</li>
            ))}
          </ul>
        </Section>
      )}
    </>
  );
}

function Records({ report }: { readonly report: AuditReport }) {
  return (
    <Section id="records" title="Records that a quality audit asks for, and whether the store shows them">
      <table>
        <thead>
          <tr>
            <th scope="col">Record</th>
            <th scope="col">Shown here</th>
            <th scope="col">What is kept, and what is not</th>
          </tr>
        </thead>
        <tbody>
          {report.records.map(({ record, shown, says }) => (
            <tr>
              <th scope="row">{record}</th>
              <td>{shown}</td>
              <td>{says}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Section>
  );
}
