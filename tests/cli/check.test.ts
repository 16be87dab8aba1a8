import { mkdtemp, rm, writeFile } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import type { CheckReport } from "../../src/cli/commands/check.ts";
import { savedFormOf } from "../../src/score/saved-form.ts";
import { ninefold } from "../support/command-line.ts";
import { lanternScore } from "../support/lantern-score.ts";

let folder = "";
beforeAll(async () => {
  folder = await mkdtemp(join(tmpdir(), "ninefold-check-"));
});
afterAll(() => rm(folder, { recursive: true, force: true }));

describe("ninefold check", () => {
  it("prints every finding with its kind, the number of its bar and its sentence", async () => {
    const run = await ninefold(["check", "examples/paper-lantern-weather.json", "--json"]);
    expect(run).toMatchObject({ exit: 0, complaint: "" });
    const { findings } = JSON.parse(run.output) as CheckReport;
    expect(findings.filter(({ kind }) => kind !== "crossing")).toEqual([
      {
        kind: "rest",
        bar: 16,
        message: "The chanter cannot rest here. Hold E, or mark a cut-off.",
        cures: ["Hold E", "Drone note high A", "Fill with F", "Mark a cut-off"],
      },
      {
        kind: "like-notes",
        bar: 17,
        message: "Two Fs with nothing between them sound as one. A G gracenote divides them.",
        cures: ["Add it", "Tie them"],
      },
    ]);
    const crossing = findings.find(({ message }) => message.startsWith("From D to E,"));
    expect(crossing).toMatchObject({ kind: "crossing", notes: ["c", "b", "low-a", "low-g"], cures: ["Cover it with a G gracenote"] });
  });

  it("says it in words without --json", async () => {
    const run = await ninefold(["check", "examples/paper-lantern-weather.json"]);
    expect(run.output.split("\n").slice(0, 2)).toEqual([
      "Bar 16: The chanter cannot rest here. Hold E, or mark a cut-off.",
      "  Hold E · Drone note high A · Fill with F · Mark a cut-off",
    ]);
    const alone = (await ninefold(["check", "examples/the-long-light.json"])).output.split("\n");
    expect(alone.slice(0, 3)).toEqual(["Nothing to look at.", "", "Finger changes on which another note can sound:"]);
    expect(alone.filter((one) => one.includes("From D to E, "))).toHaveLength(1);
  });

  it("refuses a file that is no sketch and one from a later version with one line and exit 2", async () => {
    await writeFile(join(folder, "tune.abc"), "X:1\nT:A tune\n");
    await writeFile(join(folder, "later.json"), savedFormOf(lanternScore()).replace('"version": 2', '"version": 7'));
    const none = await ninefold(["check", "tune.abc", "--json"], folder);
    expect(none).toMatchObject({ exit: 2, output: "" });
    expect(none.complaint.trim()).toBe("ninefold check: tune.abc: expected JSON, found text that is not JSON");
    const later = await ninefold(["check", "later.json", "--json"], folder);
    expect(later).toMatchObject({ exit: 2, output: "" });
    expect(later.complaint.trim()).toBe("ninefold check: later.json: Saved by a later Ninefold (version 7). This one reads up to 2.");
  });
});
