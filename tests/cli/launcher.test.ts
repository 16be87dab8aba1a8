import { spawnSync } from "node:child_process";
import { cpSync, existsSync, mkdtempSync, readdirSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, expect, it } from "vitest";
import { COMMANDS } from "../../src/cli/command-table.ts";
import { ninefold, ROOT } from "../support/command-line.ts";

const folder = mkdtempSync(join(tmpdir(), "ninefold-launcher-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

it("Every row of the command table has a file of its name, and every file a row", () => {
  const files = readdirSync(join(ROOT, "src/cli/commands")).map((file) => file.replace(/\.ts$/, ""));
  expect(COMMANDS.map(({ name }) => name).toSorted()).toEqual(files.toSorted());
});

it("With no command, or --help, the commands are listed with what each is for", async () => {
  for (const words of [[], ["--help"], ["help"]]) {
    const run = await ninefold(words);
    expect(run).toMatchObject({ exit: 0, complaint: "" });
    for (const { name, summary } of COMMANDS) expect(run.output).toContain(`${name.padEnd(7)}  ${summary}`);
  }
});

it("--help after a command tells its options, whatever else was left out", async () => {
  const run = await ninefold(["pitches", "--help"]);
  expect(run).toMatchObject({ exit: 0, complaint: "" });
  expect(run.output).toMatch(/^ninefold pitches \[options\]\n {2}--chanter A\|Bb\|B\|HERTZ /);
});

it("A command that is not there is refused by name, with those that are; a path is no command", async () => {
  for (const word of ["sing", "../main", "--chanter", ""]) {
    const run = await ninefold([word]);
    expect(run.exit, word).toBe(2);
    expect(run.complaint).toContain(`no command is called ${JSON.stringify(word)}; there are`);
    expect(run.complaint).toContain("pitches");
    expect(run.output).toBe("");
  }
});

it("A second run uses the bundle of the first", async () => {
  await ninefold(["pitches", "--help"]);
  const cache = join(ROOT, "node_modules/.cache/ninefold");
  const before = readdirSync(cache, { recursive: true }).toSorted();
  await ninefold(["pitches", "--help"]);
  expect(readdirSync(cache, { recursive: true }).toSorted()).toEqual(before);
});

it("Two first runs at once both work", async () => {
  cpSync(join(ROOT, "src"), join(folder, "two/src"), { recursive: true });
  cpSync(join(ROOT, "scripts"), join(folder, "two/scripts"), { recursive: true });
  cpSync(join(ROOT, "package-lock.json"), join(folder, "two/package-lock.json"));
  // Its own cache, the package's own packages: every entry of node_modules but `.cache` is linked.
  const linked = spawnSync("sh", ["-c", `mkdir -p two/node_modules && ln -s "${ROOT}"node_modules/* two/node_modules/`], { cwd: folder });
  expect(linked.status).toBe(0);
  const launcher = join(folder, "two/scripts/ninefold.mjs");
  const script = `node "${launcher}" pitches --chanter A --json & node "${launcher}" pitches --chanter A --json; wait`;
  const { stdout, stderr } = spawnSync("sh", ["-c", script], { encoding: "utf8" });
  expect(stderr).toBe("");
  const lines = stdout.trim().split("\n");
  expect(lines.length).toBe(2);
  expect(lines[0]).toBe(lines[1]);
  const hashes = readdirSync(join(folder, "two/node_modules/.cache/ninefold"));
  expect(hashes.length, "nothing unfinished is left").toBe(1);
});

it("Without installed packages it says so in one line and exits 2", () => {
  cpSync(join(ROOT, "src"), join(folder, "bare/src"), { recursive: true });
  cpSync(join(ROOT, "scripts/ninefold.mjs"), join(folder, "bare/scripts/ninefold.mjs"));
  const run = spawnSync(process.execPath, [join(folder, "bare/scripts/ninefold.mjs"), "pitches"], { encoding: "utf8" });
  expect(run.status).toBe(2);
  expect(run.stdout).toBe("");
  expect(run.stderr).toBe("ninefold: the packages are not installed; run `npm ci` first\n");
  expect(existsSync(join(folder, "bare/node_modules"))).toBe(false);
});
