import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { brokenRules } from "./house-rules.ts";
import { PROJECT, projectFiles } from "./project-files.ts";

test("imports go one way and every file keeps the rules of the house", () => {
  const files = projectFiles();
  expect([...files.keys()].filter((path) => path.startsWith("src/")).length).toBeGreaterThan(20);
  expect(brokenRules(files)).toEqual([]);
});

test("src is compiled without the page's and Node's types, so it cannot use them", () => {
  const { compilerOptions, exclude } = JSON.parse(readFileSync(join(PROJECT, "src/tsconfig.json"), "utf8"));
  expect(compilerOptions.lib).toEqual(["es2023"]);
  expect(compilerOptions.types).toEqual([]);
  expect(exclude).toEqual(["cli"]);
});
