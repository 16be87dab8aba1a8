// @ts-check
/*
 * Runs the command line from its TypeScript sources, with no build step in between: bundles the one command that is asked for into
 * node_modules/.cache/ninefold/<hash of the sources>/<command>/ and uses that as long as the sources are the same.
 */
import { createHash } from "node:crypto";
import { existsSync, mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync } from "node:fs";
import { join, resolve } from "node:path";
import { fileURLToPath, pathToFileURL } from "node:url";

const root = fileURLToPath(new URL("..", import.meta.url));
const packages = join(root, "node_modules");
const cache = join(packages, ".cache", "ninefold");
const A_DAY = 24 * 60 * 60 * 1000;

const [word, ...words] = process.argv.slice(2);
await run();

async function run() {
  if (!existsSync(join(packages, "rolldown"))) {
    return finish({ exit: 2, output: null, complaint: "ninefold: the packages are not installed; run `npm ci` first" });
  }
  const command = word !== undefined && /^[a-z][a-z-]*$/.test(word) && existsSync(sourceOf(word)) ? word : null;
  const folder = await bundled(command);
  const { runCommand, withoutCommand, isCommand } = await imported(join(folder, "main.mjs"));
  if (command === null || !isCommand(command)) return finish(withoutCommand(word));
  const { command: chosen } = await imported(join(folder, "command.mjs"));
  // npm runs scripts in the package's folder and says in INIT_CWD where the user stands.
  const here = process.env.INIT_CWD ?? process.cwd();
  finish(await runCommand(chosen, words, { resolvePath: (/** @type {string} */ path) => resolve(here, path) }));
}

/** @param {{ exit: number, output: string | null, complaint: string | null }} ending */
function finish({ exit, output, complaint }) {
  // A reader that stops early (`| head`) is no failure.
  process.stdout.on("error", (/** @type {NodeJS.ErrnoException} */ error) => {
    if (error.code !== "EPIPE") throw error;
  });
  process.exitCode = exit;
  if (output !== null) process.stdout.write(`${output}\n`);
  if (complaint !== null) process.stderr.write(`${complaint}\n`);
}

/** @param {string} name of a command */
function sourceOf(name) {
  return join(root, "src", "cli", "commands", `${name}.ts`);
}

/**
 * The folder with `main.mjs` and, where there is a command, `command.mjs`; made where it is missing. It is written beside its place and
 * moved there whole, so that two runs at once cannot see half of it.
 * @param {string | null} command
 */
async function bundled(command) {
  const hash = hashOfSources();
  const folder = join(cache, hash, command ?? "none");
  if (existsSync(folder)) return folder;
  const { build } = await import("rolldown");
  const unfinished = join(cache, `${process.pid}-${hash}`);
  await build({
    cwd: root,
    input: { main: join(root, "src/cli/main.ts"), ...(command !== null && { command: sourceOf(command) }) },
    platform: "node",
    tsconfig: false,
    resolve: {
      alias: {
        "vexflow/core": join(root, "scripts/lean-vexflow.mjs"),
        // As the page has it, so that both write the same bytes: for Node it would compress with Node's own zlib.
        pdfkit: join(packages, "pdfkit/js/pdfkit.browser.mjs"),
      },
    },
    logLevel: "silent",
    output: { dir: unfinished, format: "esm", entryFileNames: "[name].mjs", chunkFileNames: "[name]-[hash].mjs" },
  });
  mkdirSync(join(cache, hash), { recursive: true });
  try {
    renameSync(unfinished, folder);
  } catch (error) {
    rmSync(unfinished, { recursive: true, force: true });
    if (!existsSync(folder)) throw error;
  }
  removeOld(hash);
  return folder;
}

/** Of everything a bundle is made from: the sources, the lock file, this launcher. */
function hashOfSources() {
  const hash = createHash("sha256");
  const sources = readdirSync(join(root, "src"), { recursive: true, encoding: "utf8" }).filter((path) => /\.(ts|json)$/.test(path));
  for (const path of [...sources.sort().map((source) => join("src", source)), "package-lock.json", "scripts/ninefold.mjs"]) {
    hash
      .update(`${path}\0`)
      .update(readFileSync(join(root, path)))
      .update("\0");
  }
  return hash.digest("hex").slice(0, 16);
}

/**
 * Removes what nobody has made or used for a day.
 * @param {string} current hash
 */
function removeOld(current) {
  for (const name of readdirSync(cache)) {
    const path = join(cache, name);
    if (name !== current && Date.now() - statSync(path).mtimeMs > A_DAY) rmSync(path, { recursive: true, force: true });
  }
}

/**
 * @param {string} path
 * @returns {Promise<any>}
 */
function imported(path) {
  return import(pathToFileURL(path).href);
}
