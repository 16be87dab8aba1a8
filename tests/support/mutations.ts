import fc from "fast-check";

/* Damage done to a saved sketch: values that do not belong, entries gone or doubled, letters lost. */

/** What a value may be replaced by. */
const STRANGERS: readonly unknown[] = [
  null,
  true,
  false,
  0,
  -1,
  1,
  0.5,
  3,
  1e308,
  -1e-308,
  2 ** 53,
  959,
  961,
  "",
  "x",
  "A4",
  "Bb",
  "Ünïcödé 🎏",
  "__proto__",
  "x".repeat(600),
  [],
  [[]],
  {},
  { kind: "rest" },
  { kind: "note" },
  [1, 2, 3],
  ["low-a"],
  [null],
];

/** How a parsed sketch is to be damaged: where (a number for each step down) and what happens there. */
export interface Damage {
  readonly steps: readonly number[];
  readonly act: "replace" | "remove" | "double" | "add" | "nudge";
  readonly stranger: unknown;
}

/** Any damage. */
export const anyDamage: fc.Arbitrary<Damage> = fc.record({
  steps: fc.array(fc.nat({ max: 10_000 }), { minLength: 1, maxLength: 9 }),
  act: fc.constantFrom("replace", "replace", "remove", "double", "add", "nudge"),
  stranger: fc.constantFrom(...STRANGERS),
});

/** The same JSON text with damage done to it; it is still JSON. */
export function damagedJson(text: string, damages: readonly Damage[]): string {
  const root: unknown = JSON.parse(text);
  // A copy of the stranger: the next damage may be done to it.
  for (const damage of damages) damageAt(root, { ...damage, stranger: structuredClone(damage.stranger) });
  return JSON.stringify(root);
}

function damageAt(root: unknown, { steps, act, stranger }: Damage): void {
  let place = root;
  for (const [depth, step] of steps.entries()) {
    if (typeof place !== "object" || place === null) return;
    const keys = Object.keys(place);
    const key = keys[step % Math.max(1, keys.length)];
    if (key === undefined) return;
    const holder = place as Record<string, unknown>;
    const next = holder[key];
    if (depth < steps.length - 1 && typeof next === "object" && next !== null) {
      place = next;
      continue;
    }
    change(holder, key, act, stranger);
    return;
  }
}

function change(holder: Record<string, unknown>, key: string, act: Damage["act"], stranger: unknown): void {
  const value = holder[key];
  if (act === "replace") holder[key] = stranger;
  else if (act === "nudge") holder[key] = typeof value === "number" ? value + 1 : typeof value === "boolean" ? !value : stranger;
  else if (act === "add") holder[`${key}s`] = stranger;
  else if (Array.isArray(holder))
    holder.splice(Number(key), act === "remove" ? 1 : 0, ...(act === "double" ? [structuredClone(value)] : []));
  else if (act === "remove") delete holder[key];
}

/** Any text near the one given: cut short, letters lost, put in or changed. */
export function anyNearText(text: string): fc.Arbitrary<string> {
  const place = fc.nat({ max: text.length });
  const letters = fc.string({ maxLength: 3, unit: "binary" });
  const touched = fc.array(fc.record({ place, lost: fc.nat({ max: 3 }), letters }), { minLength: 1, maxLength: 3 }).map((touches) => {
    let near = text;
    for (const touch of touches) near = near.slice(0, touch.place) + touch.letters + near.slice(touch.place + touch.lost);
    return near;
  });
  return fc.oneof(
    touched,
    place.map((end) => text.slice(0, end)),
  );
}
