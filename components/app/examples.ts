/** A sketch that ships with the app, read only when it is opened. */
export interface Example {
  readonly name: string;
  readonly title: string;
  /** One sentence: what it shows. */
  readonly about: string;
  /** Its saved form. */
  readonly load: () => Promise<string>;
}
