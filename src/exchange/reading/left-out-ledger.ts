import type { LeftOut, LeftOutKind } from "../../song/left-out.ts";

/** Gathers, while a file is read, what is left out of it. */
export class LeftOutLedger {
  readonly #entries = new Map<string, { kind: LeftOutKind; line: string | null; bars: Set<number>; count: number; example: string }>();

  /**
   * Writes down one thing.
   * @param line any stable name while reading; `all` gives it the name that is shown
   * @param bar its place among the bars; null where it belongs to none
   */
  add(kind: LeftOutKind, line: string | null, bar: number | null, example = ""): void {
    const key = `${kind}\0${line ?? ""}`;
    const entry = this.#entries.get(key) ?? { kind, line, bars: new Set<number>(), count: 0, example: example.slice(0, 60) };
    entry.count += 1;
    if (bar !== null) entry.bars.add(bar);
    this.#entries.set(key, entry);
  }

  /** Everything, in the order in which each kind was first met. */
  all(nameOfLine: (line: string) => string, numberOfBar: (bar: number) => number): readonly LeftOut[] {
    return [...this.#entries.values()].map(({ kind, line, bars, count, example }) => ({
      kind,
      line: line === null ? null : nameOfLine(line),
      bars: [...new Set([...bars].map(numberOfBar))].sort((a, b) => a - b),
      count,
      example,
    }));
  }
}
