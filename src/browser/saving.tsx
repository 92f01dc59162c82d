import { formatJson } from '../core/report/format-json.ts';
import type { Report } from '../core/report/report.ts';
import { renderReportPage } from '../page/render-report-page.tsx';
import { saveFile } from './save-file.ts';

/** Takes the report along: for a program, for a reader, on paper. */
export function Saving({ report }: { readonly report: Report }) {
  const name = `report-${report.trial.sha256.slice(0, 8)}`;
  return (
    <div class="saving">
      <button type="button" onClick={() => saveFile(`${name}.html`, 'text/html', renderReportPage(report))}>
        Save the page
      </button>
      <button type="button" onClick={() => saveFile(`${name}.json`, 'application/json', formatJson([report]))}>
        Save as JSON
      </button>
      <button type="button" onClick={() => print()}>
        Print
      </button>
    </div>
  );
}
