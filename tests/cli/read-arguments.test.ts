import { describe, expect, it } from "vitest";
import type { Command } from "../../src/cli/command.ts";
import { readArguments, usageOf } from "../../src/cli/read-arguments.ts";

const command: Command = {
  name: "engrave",
  positionals: ["SKETCH", "PAGE"],
  options: { out: { kind: "value", value: "DIR", help: "where to" }, quiet: { kind: "flag", help: "say nothing" } },
  run: () => "",
};

describe("reading arguments", () => {
  it("sorts options, flags and the rest, in any order", () => {
    const given = readArguments(command, ["a.json", "--out", "x", "--quiet", "3", "--json"]);
    expect(given.positionals).toEqual(["a.json", "3"]);
    expect(given.values).toEqual({ out: "x" });
    expect([...given.flags]).toEqual(["quiet", "json"]);
  });

  it("takes a value after an equals sign, even one that looks like an option or holds another", () => {
    expect(readArguments(command, ["a", "b", "--out=--x=y"]).values.out).toBe("--x=y");
    expect(readArguments(command, ["a", "b", "--out="]).values.out).toBe("");
  });

  it("takes everything after two dashes as it is", () => {
    expect(readArguments(command, ["--", "--out", "-x"]).positionals).toEqual(["--out", "-x"]);
  });

  it("names what is missing and what is too much", () => {
    expect(() => readArguments(command, ["a"])).toThrow("expected PAGE, found nothing");
    expect(() => readArguments(command, ["a", "b", "c"])).toThrow('expected SKETCH PAGE and nothing after, found "c"');
  });

  it("asks for nothing when help is wanted", () => {
    expect(readArguments(command, ["--help"]).flags.has("help")).toBe(true);
  });

  it("refuses an option's value left out at the end", () => {
    expect(() => readArguments(command, ["a", "b", "--out"])).toThrow("--out: expected a value (DIR), found nothing");
  });
});

it("The usage names positionals and options, the common ones last", () => {
  expect(usageOf(command).split("\n")).toEqual([
    "ninefold engrave SKETCH PAGE [options]",
    "  --out DIR  where to",
    "  --quiet    say nothing",
    "  --json     print JSON instead of text",
    "  --help     print this",
  ]);
});
