import { readerNote } from '../../core/reader-note/reader-note.ts';
import type { Report } from '../../core/report/report.ts';
import { Heading, type Level } from '../heading.tsx';

interface ReaderNoteProps {
  readonly report: Report;
  readonly id: string;
  readonly level: Level;
}

/** A paragraph to paste into the report on the walking trials; one click takes it whole. */
export function ReaderNote({ report, id, level }: ReaderNoteProps) {
  return (
    <section aria-labelledby={`${id}-heading`}>
      <Heading level={level} id={`${id}-heading`}>
        For whoever reads the walking trials
      </Heading>
      <p class="reader-note">{readerNote(report).trim()}</p>
    </section>
  );
}
