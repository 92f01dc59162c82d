import { sentence } from '../../core/report/sentence.ts';
import type { TrialRow } from '../parts/trial-row.ts';
import type { UnreadableFile } from './audit-report.ts';

/** Files that could not be read as trials, in the order of their hashes; all are counted. */
export class UnreadableFiles {
  readonly #most: number;
  readonly #found: (UnreadableFile & { readonly order: string })[] = [];

  constructor(most: number) {
    this.#most = most;
  }

  add({ trial, sha256, path, fault }: TrialRow): void {
    if (fault === null) return;
    const reason = sentence(fault);
    this.#found.push({ trial, path, reason, order: `${sha256 ?? 'unread'} ${reason} ${path ?? ''}` });
  }

  report(): { total: number; listed: UnreadableFile[] } {
    const listed = this.#found
      .sort((a, b) => (a.order < b.order ? -1 : 1))
      .slice(0, this.#most)
      .map(({ order: _, ...shown }) => shown);
    return { total: this.#found.length, listed };
  }
}
