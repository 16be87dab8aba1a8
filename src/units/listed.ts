/** Words as they stand in a sentence: `B`, `B and C`, `B, C and D`; nothing for none. */
export function listed(words: readonly string[], joiner: "and" | "or" = "and"): string {
  return words.length < 2 ? words.join("") : `${words.slice(0, -1).join(", ")} ${joiner} ${words.at(-1)}`;
}
