/** Who, when and where of a trial: codes only. What nobody recorded is null, and counted as missing. */
export interface Visit {
  readonly assessor: string | null;
  readonly site: string | null;
  /** Day, written 2026-03-02. */
  readonly on: string | null;
  readonly subject: string | null;
}

export type VisitField = keyof Visit;

export const visitFields: readonly VisitField[] = ['assessor', 'site', 'on', 'subject'];

export const unknownVisit: Visit = { assessor: null, site: null, on: null, subject: null };

/** Each field from the first of the sources that has it. */
export function mergeVisits(...sources: readonly Visit[]): Visit {
  const first = (field: VisitField): string | null =>
    sources.map((source) => source[field]).find((value) => value !== null) ?? null;
  return { assessor: first('assessor'), site: first('site'), on: first('on'), subject: first('subject') };
}
