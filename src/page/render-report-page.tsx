import { render } from 'preact-render-to-string';
import { counted } from '../core/report/counted.ts';
import { ownName } from '../core/report/own-name.ts';
import type { Report } from '../core/report/report.ts';
import { headlineParts } from '../core/report/text-headline.ts';
import { printableReport } from './printable-report.ts';
import { ReportArticle } from './report-article.tsx';
import { sealStyle, standalonePage } from './standalone-page.tsx';
import { pageStyle } from './style/page-style.ts';
import { markerWords, trialName } from './words.ts';

export interface PageOptions {
  /** Shows the names of files, which often hold people's; without it the subject's code and the start of the hash. */
  readonly showNames?: boolean;
}

const style = sealStyle(pageStyle);

/** One report as a self-contained HTML page, from the report alone: the same report gives the same bytes. */
export function renderReportPage(report: Report, options: PageOptions = {}): string {
  return renderReportsPage([report], options);
}

/** Several reports on one page, with a short list of them on top. */
export function renderReportsPage(reports: readonly Report[], { showNames = false }: PageOptions = {}): string {
  const printable = reports.map((report) => printableReport(report, showNames));
  const alone = printable.length === 1 ? printable[0]! : null;
  const title = alone ? titleOf(alone) : counted(printable.length, 'trial');
  return standalonePage(
    title,
    style,
    <>
      <a class="skip" href="#report-1">
        Skip to the report
      </a>
      <main>
        {alone ? null : <TrialList reports={printable} title={title} showNames={showNames} />}
        {printable.map((report, index) => (
          <ReportArticle report={report} showNames={showNames} id={`report-${index + 1}`} level={alone ? 1 : 2} />
        ))}
      </main>
    </>,
  );
}

/** One report without the page around it, for pages that are made of more than reports. @param id starts every id in it */
export function renderReportArticle(report: Report, id: string, { showNames = false }: PageOptions = {}): string {
  return render(<ReportArticle report={printableReport(report, showNames)} showNames={showNames} id={id} level={1} />);
}

function titleOf(report: Report): string {
  return `${headlineParts(report).found} ${report.subject.code ?? trialName(report)}`;
}

interface TrialListProps {
  readonly reports: readonly Report[];
  readonly title: string;
  readonly showNames: boolean;
}

function TrialList({ reports, title, showNames }: TrialListProps) {
  return (
    <nav aria-labelledby="trials-heading">
      <h1 class="page-title" id="trials-heading">
        {title}
      </h1>
      <ol class="trials">
        {reports.map((report, index) => (
          <li>
            <a href={`#report-${index + 1}`}>
              <b>{showNames ? ownName(report.trial.path) : (report.subject.code ?? trialName(report))}</b>
              <span>{headlineParts(report).found}</span>
              <span>{report.moves[0] ? firstStep(report) : ''}</span>
            </a>
          </li>
        ))}
      </ol>
    </nav>
  );
}

function firstStep({ moves }: Report): string {
  const [move] = moves;
  return move?.marker === undefined ? '' : `First: the patient's ${markerWords(move)}.`;
}
