/** Norms that cannot be used: one sentence with the JSON pointer of the place. */
export class NormsError extends Error {
  readonly pointer: string;

  constructor(pointer: string, message: string) {
    super(message);
    this.name = 'NormsError';
    this.pointer = pointer;
  }
}
