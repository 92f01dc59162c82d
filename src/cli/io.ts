/** What a command needs of the process it runs in; `process` itself fits. */
export interface Io {
  readonly stdout: Writable;
  readonly stderr: Writable;
  /** Read where a list is asked for on it, and not touched before. */
  readonly stdin?: AsyncIterable<Uint8Array | string>;
  readonly env?: Readonly<Record<string, string | undefined>>;
  once?(event: 'SIGINT', listener: () => void): unknown;
  off?(event: 'SIGINT', listener: () => void): unknown;
}

export interface Writable {
  write(text: string, done?: (error?: Error | null) => void): unknown;
  readonly isTTY?: boolean;
  readonly columns?: number;
  on?(event: 'error', listener: (error: Error) => void): unknown;
}
