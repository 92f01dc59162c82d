/** To a worker: paths, never bytes. */
export interface AuditTask {
  readonly kind: 'hash' | 'check';
  readonly paths: readonly string[];
}

/** From a worker, for each path of its task in their order. */
export interface AuditAnswer {
  /** SHA-256 of the file, null where it could not be read, and of the session beside it, null where there is none. */
  readonly sha256: string | null;
  readonly sessionSha256: string | null;
  /** The result as JSON, for a `check`: the main thread writes it down as it is. Else null. */
  readonly result: string | null;
}
