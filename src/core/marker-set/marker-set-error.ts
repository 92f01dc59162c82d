/** A marker set that cannot be used: one sentence with the JSON pointer of the place. */
export class MarkerSetError extends Error {
  readonly pointer: string;

  constructor(pointer: string, message: string) {
    super(message);
    this.name = 'MarkerSetError';
    this.pointer = pointer;
  }
}
