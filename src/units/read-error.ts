/** Where in a file reading stopped, what was expected there, and what was found. */
export interface ReadErrorDetails {
  /** A path into the file: `lines[0].bars[3].events[1].ticks`, `line 12`, `byte 400`. */
  readonly where: string;
  readonly expected: string;
  readonly found: string;
}

/** A file, text or command-line value that cannot be read. Its message is one sentence that names place, expectation and finding. */
export class ReadError extends Error {
  readonly where: string;
  readonly expected: string;
  readonly found: string;

  constructor(details: ReadErrorDetails) {
    super(`${details.where}: expected ${details.expected}, found ${details.found}`);
    this.name = "ReadError";
    this.where = details.where;
    this.expected = details.expected;
    this.found = details.found;
  }
}
