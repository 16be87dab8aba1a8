import type { BarRange } from "./edit.ts";
import type { Frame } from "./frame.ts";

/** The section a bar lies in: its name (empty before the first named one) and its bars. */
export interface SectionAround {
  readonly name: string;
  readonly range: BarRange;
}

/**
 * Looks outwards from a bar to the section's first and last bar.
 * @throws RangeError when there is no such bar.
 */
export function sectionAround(frames: readonly Frame[], bar: number): SectionAround {
  if (bar < 0 || bar >= frames.length) throw new RangeError(`There is no bar ${bar} among ${frames.length}.`);
  let first = bar;
  while (first > 0 && frames[first]?.section === null) first -= 1;
  let last = bar;
  while (last + 1 < frames.length && frames[last + 1]?.section === null) last += 1;
  return { name: frames[first]?.section?.name ?? "", range: { first, last } };
}

/** Every section in order; bars before the first named one form one with an empty name. */
export function sectionsOf(frames: readonly Frame[]): readonly SectionAround[] {
  const sections: SectionAround[] = [];
  for (let bar = 0; bar < frames.length; ) {
    const section = sectionAround(frames, bar);
    sections.push(section);
    bar = section.range.last + 1;
  }
  return sections;
}
