import { mkdtempSync, readdirSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import fc from "fast-check";
import { afterAll, expect, it } from "vitest";
import { command } from "../../src/cli/commands/parts.ts";
import { runCommand } from "../../src/cli/main.ts";
import { cases, PATIENCE } from "../support/cases.ts";
import { EXAMPLE_SKETCHES } from "../support/examples.ts";
import { anyDamage, damagedJson } from "../support/mutations.ts";

const folder = mkdtempSync(join(tmpdir(), "ninefold-damaged-"));
afterAll(() => rmSync(folder, { recursive: true, force: true }));

const anyWord = fc.oneof(
  fc.constantFrom(
    "sketch.json",
    "gone.json",
    "--out",
    "--players",
    "--as",
    "--json",
    "--out=parts",
    "parts",
    "pipes",
    "fiddle",
    "musicxml",
    "--",
    "--as=",
    "-x",
    "",
    ".",
  ),
  fc.string({ maxLength: 8 }).filter((word) => !word.includes("/") && !word.includes("\0") && word !== ".."),
);

it("whatever is typed after “parts”, over whatever sketch, the run prints and exits 0, or says one line, exits 2 and has written nothing", {
  timeout: PATIENCE,
}, async () => {
  const words = fc.oneof(fc.constant(["sketch.json", "--out", "parts", "--json"]), fc.array(anyWord, { maxLength: 7 }));
  const anyExample = fc.constantFrom(...EXAMPLE_SKETCHES.map(({ text }) => text));
  let count = 0;
  await fc.assert(
    fc.asyncProperty(anyExample, fc.array(anyDamage, { maxLength: 2 }), words, async (text, damages, typed) => {
      count += 1;
      const standing = mkdtempSync(join(folder, `${count}-`));
      writeFileSync(join(standing, "sketch.json"), damagedJson(text, damages));
      const ending = await runCommand(command, typed, { resolvePath: (path) => join(standing, path) });
      if (ending.exit === 0) {
        expect(ending.complaint).toBeNull();
        expect(ending.output).not.toBe("");
      } else {
        expect(ending.output).toBeNull();
        expect(ending.complaint).toMatch(/^ninefold parts: [^\n]+$/);
        expect(readdirSync(standing)).toEqual(["sketch.json"]);
      }
      rmSync(standing, { recursive: true });
    }),
    { seed: 813, numRuns: cases(150, 5000) },
  );
});
