/**
 * The shape of a command. To add one: a row in `command-table.ts`, and `commands/<name>.ts` that exports `command: Command`.
 * The launcher bundles only the command that is run, so it may import whatever it needs.
 */

/** One option: a flag, or a name followed by a value. */
export interface OptionShape {
  readonly kind: "flag" | "value";
  /** What stands for the value in the usage line: `440`, `Bb|B|A`. Flags have none. */
  readonly value?: string;
  readonly help: string;
}

/** What the reader of arguments hands to a command: every name is declared, every positional is there. */
export interface CommandArguments {
  /** In the order of `Command.positionals`. */
  readonly positionals: readonly string[];
  /** Values given, by option name without the dashes; an option that was left out is missing. */
  readonly values: Readonly<Record<string, string>>;
  /** Flags given, by name without the dashes. */
  readonly flags: ReadonlySet<string>;
}

/** What a command may know of where it runs. */
export interface Surroundings {
  /** A path as the user typed it, made absolute from the folder the user stands in (which is not the folder npm runs scripts in). */
  resolvePath(path: string): string;
}

/** What a command has to say: for standard output, and in one line for standard error. */
export type Told = string | { readonly output: string; readonly aside: string };

/** One command of the command line. */
export interface Command {
  readonly name: string;
  /** Names of what must stand after the command, in order, as the usage line shows them: `SKETCH`. */
  readonly positionals: readonly string[];
  /** Options by name without the dashes. `--json` and `--help` need not be among them: every command has them. */
  readonly options: Readonly<Record<string, OptionShape>>;
  /**
   * Does the work and returns what to print, without the last line's end: one JSON value if `flags` has `json`, else text to read; and
   * where there is something to know besides, an aside for standard error. Reads everything before it writes anything.
   * @throws ReadError for input that cannot be used: the user sees its message in one line, and the exit is 2.
   */
  run(given: CommandArguments, surroundings: Surroundings): Promise<Told> | Told;
}
