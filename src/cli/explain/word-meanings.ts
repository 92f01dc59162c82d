import { docsPage, firstTable } from './docs-page.ts';

/** The words of a report and what they mean, from the page that says so. */
export async function wordMeanings(): Promise<ReadonlyMap<string, string>> {
  return new Map(firstTable(await docsPage('reading-a-report.md')).map(([word = '', meaning = '']) => [word, meaning]));
}
