import { render } from 'preact-render-to-string';
import type { TraineeRecord } from '../../core/practice/trainee-record.ts';
import { base64, sha256 } from '../sha256.ts';
import { pageStyle } from '../style/page-style.ts';
import { printableRecord } from './printable-record.ts';
import { RecordArticle } from './record-article.tsx';
import { recordStyle } from './record-style.ts';

const style = pageStyle + recordStyle;
/** The one style and nothing else: no script, no request. */
const policy = `default-src 'none'; style-src 'sha256-${base64(sha256(new TextEncoder().encode(style)))}'; base-uri 'none'; form-action 'none'`;

/** The record as one page that opens from disk and prints: the same record gives the same bytes. */
export function renderRecordPage(record: TraineeRecord): string {
  const shown = printableRecord(record);
  const page = (
    <html lang="en">
      <head>
        <meta charset="utf-8" />
        <meta http-equiv="Content-Security-Policy" content={policy} />
        <meta name="viewport" content="width=device-width, initial-scale=1" />
        <meta name="referrer" content="no-referrer" />
        <title>{`Practice record of ${shown.trainee}`}</title>
        <style dangerouslySetInnerHTML={{ __html: style }} />
      </head>
      <body>
        <main>
          <RecordArticle record={shown} />
        </main>
      </body>
    </html>
  );
  return `<!doctype html>${render(page)}\n`;
}
