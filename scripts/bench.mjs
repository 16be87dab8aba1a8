// @ts-check
import "./node-version.mjs";
import { fileURLToPath } from "node:url";
import { buildIfChanged } from "./build.mjs";
import { installMissingPackages } from "./packages.mjs";

/*
 * npm run bench: a table of what takes how long and weighs how much, each beside its goal where there is one.
 * npm run bench -- edit load   runs only those of: edit, scroll, open, memory, fit, engraving, load, paper, sound, start.
 * Nothing here passes or fails: times depend on the machine. What must hold (the first load's limit) is a test.
 */

const wanted = process.argv.slice(2);

try {
  await installMissingPackages();
  const { runnerImport } = await import("vite");
  /** @param {string} file under scripts/bench */
  const load = async (file) => (await runnerImport(fileURLToPath(new URL(`bench/${file}`, import.meta.url)), { logLevel: "error" })).module;
  /** @type {Record<string, () => Promise<import("./bench/table.ts").Row[]>>} */
  const benches = {
    edit: async () => {
      await build();
      return (await load("edit-to-repaint.ts")).editToRepaint();
    },
    scroll: async () => {
      await build();
      return (await load("scrolling.ts")).scrolling();
    },
    open: async () => {
      await build();
      return (await load("opening.ts")).opening();
    },
    memory: async () => {
      await build();
      return (await load("memory.ts")).memory();
    },
    fit: async () => (await load("fit.ts")).fit(),
    engraving: async () => (await load("engraving.ts")).engraving(),
    load: async () => {
      await build();
      return (await load("first-load.ts")).firstLoad();
    },
    paper: async () => {
      await build();
      return (await load("paper.ts")).paper();
    },
    sound: async () => (await load("sound.ts")).sound(),
    start: async () => (await load("cold-start.ts")).coldStart(),
  };
  const unknown = wanted.filter((name) => !(name in benches));
  if (unknown.length > 0) throw new Error(`There is no bench ${unknown.join(", ")}; there are ${Object.keys(benches).join(", ")}.`);
  const { tableOf } = await load("table.ts");
  for (const [name, bench] of Object.entries(benches)) {
    if (wanted.length > 0 && !wanted.includes(name)) continue;
    console.log(`\n── ${name}`);
    console.log(tableOf(await bench()));
  }
  process.exit(0);
} catch (error) {
  console.error(error instanceof Error ? error.message : error);
  process.exitCode = 1;
}

async function build() {
  const built = await buildIfChanged();
  if (built && built.code !== 0) throw new Error(`${built.output}\nThe app could not be built.`);
}
