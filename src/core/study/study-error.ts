/** A design of a study that cannot be used: one sentence with the JSON pointer of the place. */
export class StudyError extends Error {
  readonly pointer: string;

  constructor(pointer: string, message: string) {
    super(message);
    this.name = 'StudyError';
    this.pointer = pointer;
  }
}
