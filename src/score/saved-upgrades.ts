import { CROSS_FINGERING_TABLE } from "../pipes/cross-fingerings.ts";

/** A saved sketch, parsed but not yet understood, without `format` and `version`. */
export type SavedFields = Readonly<Record<string, unknown>>;

/** Brings the fields of one version to the next. */
export type Upgrader = (fields: SavedFields) => SavedFields;

/**
 * `UPGRADERS[n]` brings version n to n + 1. A change to the saved form adds one, raises `SAVED_VERSION`, and keeps a file of the old version as a test.
 */
export const UPGRADERS: Readonly<Record<number, Upgrader>> = { 1: withFingeringsAndTimbre };

/** Version 2 has the piper's own fingerings of the nine, and says how loud and dull each cross-fingered note is. */
function withFingeringsAndTimbre(fields: SavedFields): SavedFields {
  const timbre = (note: unknown) => {
    const known = CROSS_FINGERING_TABLE.find((entry) => entry.note === note);
    return { level: known?.level ?? 0, dullness: known?.dullness ?? 0 };
  };
  return changedIn(fields, "lines", (line) =>
    isFields(line.setup)
      ? { ...line, setup: changedIn({ fingerings: {}, ...line.setup }, "crossFingerings", (own) => ({ ...own, ...timbre(own.note) })) }
      : line,
  );
}

/** The fields with every entry of one list changed. What is not as it should be is left for the schema to find. */
function changedIn(fields: SavedFields, list: string, change: (entry: SavedFields) => SavedFields): SavedFields {
  const entries = fields[list];
  if (!Array.isArray(entries)) return fields;
  return { ...fields, [list]: entries.map((entry: unknown) => (isFields(entry) ? change(entry) : entry)) };
}

function isFields(value: unknown): value is SavedFields {
  return typeof value === "object" && value !== null && !Array.isArray(value);
}

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
