import { ReadError } from "../units/read-error.ts";
import type { Command, Surroundings } from "./command.ts";
import { COMMANDS } from "./command-table.ts";
import { readArguments, usageOf } from "./read-arguments.ts";

/** What a run of the command line comes to; the launcher prints it and exits. */
export interface Ending {
  readonly exit: 0 | 2;
  /** For standard output; null prints nothing. */
  readonly output: string | null;
  /** One line for standard error; null prints nothing. */
  readonly complaint: string | null;
}

/** Every command with its summary, and how to see more. */
export function overview(): string {
  const width = Math.max(...COMMANDS.map(({ name }) => name.length));
  const rows = COMMANDS.map(({ name, summary }) => `  ${name.padEnd(width)}  ${summary}`);
  return ["ninefold COMMAND [options]", ...rows, "", "ninefold COMMAND --help tells the options of one."].join("\n");
}

/** Runs one command on what was typed after its name. Mistakes of our own are thrown on. */
export async function runCommand(command: Command, words: readonly string[], surroundings: Surroundings): Promise<Ending> {
  try {
    const given = readArguments(command, words);
    const told = given.flags.has("help") ? usageOf(command) : await command.run(given, surroundings);
    if (typeof told === "string") return { exit: 0, output: told, complaint: null };
    return { exit: 0, output: told.output, complaint: `ninefold ${command.name}: ${told.aside}` };
  } catch (error) {
    if (!(error instanceof ReadError)) throw error;
    return { exit: 2, output: null, complaint: `ninefold ${command.name}: ${error.message.replace(/\s*\n\s*/g, " ")}` };
  }
}

/** What to say where no command could be run: the overview when it was asked for or nothing was typed, else a complaint. */
export function withoutCommand(word: string | undefined): Ending {
  if (word === undefined || word === "--help" || word === "help") return { exit: 0, output: overview(), complaint: null };
  const names = COMMANDS.map(({ name }) => name).join(", ");
  return { exit: 2, output: null, complaint: `ninefold: no command is called ${JSON.stringify(word)}; there are ${names}` };
}

/** Whether a command is called this. */
export function isCommand(word: string | undefined): word is string {
  return COMMANDS.some(({ name }) => name === word);
}
