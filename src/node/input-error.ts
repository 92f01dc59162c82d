/** Something given to the program cannot be used. The message is one sentence for the person who gave it. */
export class InputError extends Error {
  override readonly name = 'InputError';
  /** Clause: what is wrong, and where. */
  readonly found: string;
  /** Clause: what to do about it. */
  readonly remedy: string;

  constructor(found: string, remedy: string, options?: ErrorOptions) {
    super(`${found}; ${remedy}.`, options);
    this.found = found;
    this.remedy = remedy;
  }
}
