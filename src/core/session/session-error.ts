/** A session file that cannot be used: one sentence with the JSON pointer of the place. */
export class SessionError extends Error {
  readonly pointer: string;

  constructor(pointer: string, message: string) {
    super(message);
    this.name = 'SessionError';
    this.pointer = pointer;
  }
}
