import type { TraineeRecord } from '../../core/practice/trainee-record.ts';
import { escapeStrings } from '../escape-strings.ts';
import { sealStyle, standalonePage } from '../standalone-page.tsx';
import { pageStyle } from '../style/page-style.ts';
import { RecordArticle } from './record-article.tsx';
import { recordStyle } from './record-style.ts';

const style = sealStyle(pageStyle + recordStyle);

/** The record as one page that opens from disk and prints: the same record gives the same bytes. */
export function renderRecordPage(record: TraineeRecord): string {
  const shown = escapeStrings(record);
  return standalonePage(
    `Practice record of ${shown.trainee}`,
    style,
    <main>
      <RecordArticle record={shown} />
    </main>,
  );
}
