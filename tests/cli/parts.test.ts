import { spawnSync } from "node:child_process";
import { chmodSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, join } from "node:path";
import { afterAll, beforeEach, describe, expect, it } from "vitest";
import { musicxmlOfPart } from "../../src/exchange/musicxml-score.ts";
import { savedFormOf } from "../../src/score/saved-form.ts";
import { ninefold, ROOT } from "../support/command-line.ts";
import { lanternScore } from "../support/lantern-score.ts";
import { xmlReading } from "../support/xml-reading.ts";

const folder = mkdtempSync(join(tmpdir(), "ninefold-parts-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const score = lanternScore();
let standing = "";
let count = 0;
beforeEach(() => {
  count += 1;
  standing = join(folder, String(count));
  mkdirSync(standing);
  writeFileSync(join(standing, "lantern.json"), savedFormOf(score));
});

/** What a folder holds, hidden files too. */
const listing = (path: string): string[] => readdirSync(path).toSorted();

describe("ninefold parts", () => {
  it("writes one MusicXML file for each player, named after the title and the player, and prints where each is", async () => {
    const run = await ninefold(["parts", "lantern.json", "--out", "band", "--as", "musicxml"], standing);
    expect(run).toMatchObject({ exit: 0, complaint: "" });
    const names = ["Pipes", "The trumpet-bb", "The piano"].map((name) => `Paper Lantern Weather - ${name}, revision 12.musicxml`);
    expect(run.output.trimEnd().split("\n")).toEqual(names.map((name) => join(standing, "band", name)));
    expect(listing(join(standing, "band"))).toEqual(names.toSorted());
    for (const [index, line] of score.lines.entries()) {
      expect(readFileSync(join(standing, "band", names[index] as string), "utf8")).toBe(musicxmlOfPart(score, line));
    }
  });

  it("writes one SVG and one PDF file for each player, whole, and every format where none is named", async () => {
    const run = await ninefold(["parts", "lantern.json", "--out", "band", "--json"], standing);
    const { files } = JSON.parse(run.output) as { files: readonly { player: string; format: string; path: string }[] };
    expect(files.map(({ player, format }) => `${player} ${format}`)).toEqual(
      ["pipes", "doubler", "own"].flatMap((id) => [`${id} svg`, `${id} pdf`, `${id} musicxml`]),
    );
    for (const { path } of files.filter(({ format }) => format === "svg")) {
      const text = readFileSync(path, "utf8");
      expect(xmlReading(text).count("/*[local-name() = 'svg']")).toBe(1);
      expect(text).toContain("<title>Paper Lantern Weather, ");
    }
    for (const { path } of files.filter(({ format }) => format === "pdf")) {
      const text = readFileSync(path, "latin1");
      expect(text.startsWith("%PDF-1.7")).toBe(true);
      expect(text.trimEnd().endsWith("%%EOF")).toBe(true);
    }
  });

  it("writes the learner's part and the chart page too, for pipers only, where --also asks for them", async () => {
    const run = await ninefold(["parts", "lantern.json", "--out", ".", "--as", "pdf", "--also", "charts,learner", "--json"], standing);
    const { files } = JSON.parse(run.output) as { files: readonly { player: string; kind: string; path: string }[] };
    expect(files.map(({ player, kind, path }) => `${player} ${kind} ${basename(path)}`)).toEqual([
      "pipes part Paper Lantern Weather - Pipes, revision 12.pdf",
      "pipes learner Paper Lantern Weather - Pipes, learner, revision 12.pdf",
      "pipes charts Paper Lantern Weather - Pipes, chart page, revision 12.pdf",
      "doubler part Paper Lantern Weather - The trumpet-bb, revision 12.pdf",
      "own part Paper Lantern Weather - The piano, revision 12.pdf",
    ]);
    const contents = files.map(({ path }) => readFileSync(path, "base64"));
    expect(new Set(contents).size).toBe(contents.length);
  });

  it("writes PDF from any folder, without npm to say which", () => {
    const { INIT_CWD: _, ...env } = process.env;
    const words = [join(ROOT, "scripts/ninefold.mjs"), "parts", "lantern.json", "--out", "band", "--players", "pipes", "--as", "pdf"];
    const run = spawnSync(process.execPath, words, { cwd: standing, env, encoding: "utf8" });
    expect(run.stderr).toBe("");
    expect(readFileSync(run.stdout.trimEnd(), "latin1").startsWith("%PDF-")).toBe(true);
  });

  it("has what writes PDF in a file of its own, which is loaded for PDF only", async () => {
    await ninefold(["parts", "--help"]);
    const cache = join(ROOT, "node_modules/.cache/ninefold");
    const bundles = readdirSync(cache)
      .map((hash) => join(cache, hash, "parts"))
      .filter((path) => existsSync(path));
    const [latest = ""] = bundles.toSorted((one, other) => statSync(other).mtimeMs - statSync(one).mtimeMs);
    // Written so by pdfkit and by nothing of ours.
    const writers = readdirSync(latest).filter((name) => readFileSync(join(latest, name), "utf8").includes("CIDToGIDMap"));
    expect(writers).toEqual([expect.stringMatching(/^pdf-/)]);
    expect(readFileSync(join(latest, "command.mjs"), "utf8")).not.toMatch(/^import .*"\.\/pdf-/m);
  });

  it("cuts pages for the paper that is asked for, and has chords over the pipe part where they are", async () => {
    const svg = async (...words: readonly string[]) => {
      const run = await ninefold(["parts", "lantern.json", "--out", ".", "--players", "pipes", "--as", "svg", ...words], standing);
      return readFileSync(run.output.trimEnd(), "utf8");
    };
    expect(await svg("--paper", "letter")).toContain('width="215.9mm"');
    const [plain, chords] = [await svg(), await svg("--chords")];
    expect(plain).toContain('width="210mm"');
    expect(chords.length).toBeGreaterThan(plain.length);
  });

  it("says on standard error which letters a PDF could not have, and writes it all the same", async () => {
    writeFileSync(join(standing, "night.json"), savedFormOf({ ...score, title: "Night 紙の灯" }));
    const run = await ninefold(["parts", "night.json", "--out", ".", "--players", "pipes", "--as", "pdf"], standing);
    expect(run.exit).toBe(0);
    expect(run.complaint.trimEnd()).toBe("ninefold parts: no font for 紙 の 灯: the PDF shows the Unicode number of each");
    expect(existsSync(run.output.trimEnd())).toBe(true);
  });

  it("tells player, kind, format and absolute path of each file with --json", async () => {
    const run = await ninefold(["parts", "lantern.json", "--out=.", "--players", "own, pipes", "--as", "musicxml", "--json"], standing);
    expect(JSON.parse(run.output)).toEqual({
      files: [
        {
          player: "pipes",
          kind: "part",
          format: "musicxml",
          path: join(standing, "Paper Lantern Weather - Pipes, revision 12.musicxml"),
        },
        {
          player: "own",
          kind: "part",
          format: "musicxml",
          path: join(standing, "Paper Lantern Weather - The piano, revision 12.musicxml"),
        },
      ],
    });
  });

  it("writes over its own files of before, and leaves nothing else behind", async () => {
    for (let time = 0; time < 2; time += 1) {
      expect((await ninefold(["parts", "lantern.json", "--out", "band", "--players", "pipes", "--as", "musicxml"], standing)).exit).toBe(0);
    }
    expect(listing(join(standing, "band"))).toEqual(["Paper Lantern Weather - Pipes, revision 12.musicxml"]);
  });

  it("keeps players of one name apart", async () => {
    const twins = { ...score, lines: score.lines.map((line) => ({ ...line, name: "Pipes" })) };
    writeFileSync(join(standing, "twins.json"), savedFormOf(twins));
    await ninefold(["parts", "twins.json", "--out", "band", "--as", "musicxml"], standing);
    expect(listing(join(standing, "band"))).toEqual(
      ["", " 2", " 3"].map((rest) => `Paper Lantern Weather - Pipes${rest}, revision 12.musicxml`).toSorted(),
    );
  });

  it.each([
    [
      "a sketch that is not there",
      ["parts", "gone.json", "--out", "band"],
      "gone.json: expected a saved sketch, found no such file or folder",
    ],
    ["a folder for a sketch", ["parts", ".", "--out", "band"], ".: expected a saved sketch, found a folder"],
    ["no sketch at all", ["parts", "--out", "band"], "arguments: expected SKETCH, found nothing"],
    ["no folder", ["parts", "lantern.json"], "--out: expected a folder, found nothing"],
    [
      "a player who is not in the sketch",
      ["parts", "lantern.json", "--out", "band", "--players", "pipes,kazoo"],
      '--players: expected one or more of pipes, doubler, own, found "kazoo"',
    ],
    [
      "an unknown format",
      ["parts", "lantern.json", "--out", "band", "--as", "pdf,wax"],
      '--as: expected one or more of svg, pdf, musicxml, found "wax"',
    ],
    ["an unknown paper", ["parts", "lantern.json", "--out", "band", "--paper", "a3"], '--paper: expected one of a4, letter, found "a3"'],
    [
      "two papers",
      ["parts", "lantern.json", "--out", "band", "--paper", "a4,letter"],
      '--paper: expected one of a4, letter, found "a4,letter"',
    ],
    [
      "an unknown extra",
      ["parts", "lantern.json", "--out", "band", "--also", "hymn"],
      '--also: expected one or more of learner, charts, found "hymn"',
    ],
  ])("refuses %s in one line, exits 2 and writes nothing", async (_, words, complaint) => {
    const run = await ninefold(words, standing);
    expect(run).toMatchObject({ exit: 2, output: "" });
    expect(run.complaint).toContain(complaint);
    expect(run.complaint.trimEnd()).not.toContain("\n");
    expect(listing(standing)).toEqual(["lantern.json"]);
  });

  it.each([
    ["{", "found text that is not JSON"],
    ["[]", "expected a sketch saved by Ninefold, found a list of 0"],
    [
      savedFormOf(score).replace('"revision": 12', '"revision": -1').replace('"revision":12', '"revision":-1'),
      "broken.json, revision: expected",
    ],
    [savedFormOf(score).replace(/"version": ?2/, '"version": 99'), "later Ninefold (version 99)"],
  ])("says where a broken sketch is broken, what was expected and what was found", async (text, complaint) => {
    writeFileSync(join(standing, "broken.json"), text);
    const run = await ninefold(["parts", "broken.json", "--out", "band"], standing);
    expect(run).toMatchObject({ exit: 2, output: "" });
    expect(run.complaint).toContain("broken.json");
    expect(run.complaint).toContain(complaint);
    expect(existsSync(join(standing, "band"))).toBe(false);
  });

  it("refuses a file where the folder should be", async () => {
    const run = await ninefold(["parts", "lantern.json", "--out", "lantern.json"], standing);
    expect(run.exit).toBe(2);
    expect(run.complaint).toContain("lantern.json: expected a folder to write into, found a file where a folder was meant");
    expect(readFileSync(join(standing, "lantern.json"), "utf8")).toBe(savedFormOf(score));
  });

  it.skipIf(process.getuid?.() === 0)("refuses a folder that cannot be written", async () => {
    const closed = join(standing, "closed");
    mkdirSync(closed);
    chmodSync(closed, 0o500);
    const run = await ninefold(["parts", "lantern.json", "--out", "closed"], standing);
    expect(run.exit).toBe(2);
    expect(run.complaint).toContain("closed: expected a folder to write into, found one that may not be used");
  });

  it("leaves every file as it was where one of them cannot be written", async () => {
    const band = join(standing, "band");
    mkdirSync(join(band, "Paper Lantern Weather - The piano, revision 12.musicxml"), { recursive: true });
    const run = await ninefold(["parts", "lantern.json", "--out", "band"], standing);
    expect(run.exit).toBe(2);
    expect(run.complaint).toContain("expected a file to write, found a folder");
    expect(listing(band)).toEqual(["Paper Lantern Weather - The piano, revision 12.musicxml"]);
  });
});
