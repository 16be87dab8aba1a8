/** Fingers as bits: bit 0 is the thumb, bit 7 the lower little. */
type FingerSet = number;

/**
 * In what share of all the orders in which fingers can move one after the other, some set of them has moved at one moment: 0 none, 1 all.
 * Of the orders of two fingers, half pass through the first having moved and the second not.
 *
 * @param moving the fingers that move, each once
 * @param reached the sets looked for; of each, the fingers that have moved by then
 */
export function shareOfOrders(moving: readonly number[], reached: readonly (readonly number[])[]): number {
  const wanted = new Set<FingerSet>(reached.map(setOf));
  const all = setOf(moving);
  // How many orders of each set's fingers go by none of the sets looked for, added up from the orders of the sets one finger smaller.
  const avoiding = new Map<FingerSet, number>([[0, 1]]);
  let orders = 1;
  moving.forEach((_, count) => {
    orders *= count + 1;
  });
  for (const set of subsetsOf(moving)) {
    if (set === 0) continue;
    const before = moving.filter((finger) => (set & (1 << finger)) !== 0).map((finger) => avoiding.get(set & ~(1 << finger)) ?? 0);
    avoiding.set(set, wanted.has(set) ? 0 : before.reduce((sum, count) => sum + count, 0));
  }
  return 1 - (avoiding.get(all) ?? 0) / orders;
}

function setOf(fingers: readonly number[]): FingerSet {
  return fingers.reduce((set, finger) => set | (1 << finger), 0);
}

/** Every set of some fingers, smaller sets before those that hold them. */
function subsetsOf(fingers: readonly number[]): readonly FingerSet[] {
  const sets: FingerSet[] = [0];
  for (const finger of fingers) sets.push(...sets.map((set) => set | (1 << finger)));
  return sets;
}
