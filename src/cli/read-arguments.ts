import { ReadError } from "../units/read-error.ts";
import type { Command, CommandArguments, OptionShape } from "./command.ts";

/** Options that every command has. */
export const COMMON_OPTIONS: Readonly<Record<string, OptionShape>> = {
  json: { kind: "flag", help: "print JSON instead of text" },
  help: { kind: "flag", help: "print this" },
};

/**
 * Sorts what was typed after the command: `--name value`, `--name=value`, flags, the rest in order; after `--` nothing is an option.
 * @throws ReadError for an option the command does not have, one without its value, one given twice, or a wrong count of the rest.
 */
export function readArguments(command: Command, words: readonly string[]): CommandArguments {
  const options = { ...command.options, ...COMMON_OPTIONS };
  const values: Record<string, string> = {};
  const flags = new Set<string>();
  const positionals: string[] = [];
  for (let index = 0; index < words.length; index++) {
    const word = words[index] as string;
    if (word === "--") {
      positionals.push(...words.slice(index + 1));
      break;
    }
    if (!word.startsWith("--")) {
      positionals.push(word);
      continue;
    }
    const [name, attached] = splitOption(word);
    const shape = Object.hasOwn(options, name) ? options[name] : undefined;
    if (!shape) throw unknownOption(name, Object.keys(options));
    if (flags.has(name) || Object.hasOwn(values, name))
      throw new ReadError({ where: `--${name}`, expected: "to be given once", found: "it twice" });
    if (shape.kind === "flag") {
      if (attached !== null) throw new ReadError({ where: `--${name}`, expected: "no value", found: JSON.stringify(attached) });
      flags.add(name);
      continue;
    }
    const value = attached ?? words[++index];
    if (value === undefined || (attached === null && value.startsWith("--"))) {
      throw new ReadError({ where: `--${name}`, expected: `a value (${shape.value})`, found: value ?? "nothing" });
    }
    values[name] = value;
  }
  if (!flags.has("help")) requireCount(command.positionals, positionals);
  return { positionals, values, flags };
}

/** How to call a command, its options one a line. */
export function usageOf(command: Command): string {
  const options = Object.entries({ ...command.options, ...COMMON_OPTIONS });
  const heads = options.map(([name, shape]) => `--${name}${shape.kind === "value" ? ` ${shape.value}` : ""}`);
  const width = Math.max(...heads.map((head) => head.length));
  const lines = options.map(([, shape], index) => `  ${(heads[index] as string).padEnd(width)}  ${shape.help}`);
  return [`ninefold ${[command.name, ...command.positionals].join(" ")} [options]`, ...lines].join("\n");
}

function splitOption(word: string): readonly [name: string, attached: string | null] {
  const equals = word.indexOf("=");
  return equals < 0 ? [word.slice(2), null] : [word.slice(2, equals), word.slice(equals + 1)];
}

function unknownOption(name: string, known: readonly string[]): ReadError {
  return new ReadError({
    where: `--${name}`,
    expected: `one of ${known.map((option) => `--${option}`).join(", ")}`,
    found: "an option this command does not have",
  });
}

function requireCount(expected: readonly string[], found: readonly string[]): void {
  const missing = expected[found.length];
  if (missing) throw new ReadError({ where: "arguments", expected: missing, found: "nothing" });
  if (found.length > expected.length) {
    const wanted = expected.length === 0 ? "options only" : `${expected.join(" ")} and nothing after`;
    throw new ReadError({ where: "arguments", expected: wanted, found: JSON.stringify(found[expected.length]) });
  }
}
