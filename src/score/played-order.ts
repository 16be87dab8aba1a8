import type { Frame } from "./frame.ts";

/**
 * The bars in the order they are played, repeats and endings taken: indexes into the frames.
 * A repeat end with no start goes back to the end of the repeat before it, or to the first bar. Each repeat is taken once; a first ending
 * is left out the second time. Marks that do not close are passed over, so the list is finite for any frames.
 */
export function playedOrder(frames: readonly Frame[]): readonly number[] {
  const order: number[] = [];
  const taken = new Set<number>();
  let start = 0;
  let second = false;
  let index = 0;
  while (index < frames.length) {
    const frame = frames[index] as Frame;
    if (frame.repeatStart && index !== start) {
      start = index;
      second = false;
    }
    if (second && frame.ending === 1) {
      index = endOfEnding(frames, index);
      if (frames[index]?.ending !== 2) {
        start = index;
        second = false;
      }
      continue;
    }
    order.push(index);
    if (frame.repeatEnd && !second && !taken.has(index)) {
      taken.add(index);
      second = true;
      index = start;
      continue;
    }
    const leavesSecondEnding = frame.ending === 2 && frames[index + 1]?.ending !== 2;
    index += 1;
    if (frame.repeatEnd || (second && leavesSecondEnding)) {
      start = index;
      second = false;
    }
  }
  return order;
}

/** The index just after the run of bars that belong to the same ending. */
function endOfEnding(frames: readonly Frame[], from: number): number {
  const ending = frames[from]?.ending;
  let index = from;
  while (index < frames.length && frames[index]?.ending === ending && (index === from || !frames[index - 1]?.repeatEnd)) index += 1;
  return index;
}
