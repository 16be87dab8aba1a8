import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { ninefold } from "../support/command-line.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ninefold-rank-"));
  await writeFile(join(folder, "lamp.abc"), "X:1\nT:Lamp Oil\nM:4/4\nL:1/4\nK:E\nE E F G|A B G E|B, C D E|E4|]\n");
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("ninefold rank", () => {
  it("puts written D on a B chanter first for a tune in E that fits it, the band not moving", async () => {
    const run = await ninefold(["rank", "lamp.abc", "--band", "trumpet-bb", "--json"], folder);
    expect(run).toMatchObject({ exit: 0, complaint: "" });
    const { setups } = JSON.parse(run.output);
    expect(setups).toHaveLength(36);
    expect(setups[0]).toMatchObject({
      chanter: "B",
      concertKey: "E major",
      writtenKey: "D major",
      semitones: 0,
      kept: 1,
      changed: 0,
      drone: 5,
    });
  });

  it("prints a table without --json", async () => {
    const { exit, output } = await ninefold(["rank", "lamp.abc", "--own", "479"], folder);
    expect(exit).toBe(0);
    expect(output.split("\n")[1]).toMatch(/^479 +Eb major +D major +100 % +0 +0 +0 +-1/);
  });

  it("refuses by name what it cannot use", async () => {
    expect(await ninefold(["rank", "lamp.abc", "--own", "Q"], folder)).toMatchObject({ exit: 2, output: "" });
    expect(await ninefold(["rank", "lamp.abc", "--bars", "9-12"], folder)).toMatchObject({ exit: 2, output: "" });
  });
});
