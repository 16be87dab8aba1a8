import { spawn } from "node:child_process";
import { fileURLToPath } from "node:url";

/** The folder of the package. */
export const ROOT = fileURLToPath(new URL("../..", import.meta.url));

/** What a run of the command line came to. */
export interface Run {
  readonly exit: number | null;
  readonly output: string;
  readonly complaint: string;
}

/** Runs the launcher as `npm run -s ninefold -- …` does, without npm. `standing` is the folder the user stands in. */
export function ninefold(words: readonly string[], standing = ROOT): Promise<Run> {
  return runProgram(process.execPath, ["scripts/ninefold.mjs", ...words], { ...process.env, INIT_CWD: standing });
}

/** Runs the command line through npm itself. */
export function ninefoldThroughNpm(words: readonly string[]): Promise<Run> {
  return runProgram("npm", ["run", "-s", "ninefold", "--", ...words], process.env);
}

function runProgram(program: string, words: readonly string[], env: NodeJS.ProcessEnv): Promise<Run> {
  return new Promise((resolve, reject) => {
    const child = spawn(program, words, { cwd: ROOT, env, stdio: ["ignore", "pipe", "pipe"] });
    let output = "";
    let complaint = "";
    child.stdout.setEncoding("utf8").on("data", (text: string) => {
      output += text;
    });
    child.stderr.setEncoding("utf8").on("data", (text: string) => {
      complaint += text;
    });
    child.on("error", reject);
    child.on("close", (exit) => resolve({ exit, output, complaint }));
  });
}
