/** A saved sketch, parsed but not yet understood, without `format` and `version`. */
export type SavedFields = Readonly<Record<string, unknown>>;

/** Brings the fields of one version to the next. */
export type Upgrader = (fields: SavedFields) => SavedFields;

/**
 * `UPGRADERS[n]` brings version n to n + 1. A change to the saved form adds one, raises `SAVED_VERSION`, and keeps a file of the old version as a test.
 */
export const UPGRADERS: Readonly<Record<number, Upgrader>> = {};

/**
 * The fields brought from their version up to another, one step at a time.
 * @throws RangeError when a step is missing: a version was raised without its upgrader.
 */
export function upgraded(
  { version, ...fields }: SavedFields & { readonly version: number },
  to: number,
  upgraders: Readonly<Record<number, Upgrader>> = UPGRADERS,
): SavedFields {
  let current: SavedFields = fields;
  for (let from = version; from < to; from += 1) {
    const step = upgraders[from];
    if (step === undefined) throw new RangeError(`No upgrader leads from version ${from} of the saved form.`);
    current = step(current);
  }
  return current;
}
