import { expect, test } from "vitest";
import { brokenRules } from "./house-rules.ts";

/** A small project that keeps every rule. */
const GOOD = {
  "src/units/hertz.ts": "export type Hertz = number;",
  "src/pitch/key.ts":
    'import { Note } from "tonal";\nimport type { Hertz } from "../units/hertz.ts";\nexport const a: Hertz = Note.freq("A4") ?? 440;',
  "src/editing/edit.ts": 'import { a } from "../pitch/key.ts";\nexport const b = a;',
  "src/engraving/draw.ts": 'export { Stave } from "vexflow/core";',
  "src/playback/clock.ts": "export const ends = (seconds: number): number => Math.round(seconds);",
  "src/cli/main.ts": 'import { join } from "node:path";\nexport const now = () => [Date.now(), join("a", "b")];',
  "components/shared/tag.ts": `import { html } from "lit";\nexport const tag = (s: unknown) => html\`<b style=\${s} class="style">x</b>\`;`,
  "components/grid/grid.ts":
    'import "../shared/tag.ts";\nimport { b } from "../../src/editing/edit.ts";\nexport const c = b;\ndeclare global {\n  interface Window {}\n}',
  "components/sound/out.ts": 'import { Context } from "tone/build/esm/core/context/Context.js";\nexport const x = Context;',
  "components/app/app.ts":
    'import example from "../../examples/one.json";\nexport const lazy = () => [example, import("../sound/out.ts")];',
};

function rulesBrokenWith(changes: Record<string, string>): string[] {
  return brokenRules(new Map(Object.entries({ ...GOOD, ...changes })));
}

test("a project that keeps the rules breaks none", () => {
  expect(rulesBrokenWith({})).toEqual([]);
});

test.each([
  ["a lower layer looks up", "src/units/hertz.ts", 'export { a } from "../pitch/key.ts";', /units does not see pitch/],
  ["a type looks up", "src/pitch/key.ts", 'import type { B } from "../editing/edit.ts";\nexport type C = B;', /pitch does not see editing/],
  ["a type is named inline", "src/pitch/key.ts", 'export type C = import("../editing/edit.ts").B;', /pitch does not see editing/],
  ["a lazy import looks up", "src/pitch/key.ts", 'export const c = () => import("../editing/edit.ts");', /pitch does not see editing/],
  ["folders in braces see each other", "src/playback/clock.ts", 'import "../editing/edit.ts";', /playback does not see editing/],
  ["rooms see each other", "components/grid/grid.ts", 'import "../sound/out.ts";', /grid does not see sound/],
  ["session sees a room", "components/session/s.ts", 'import "../grid/grid.ts";', /session does not see grid/],
  ["src sees components", "src/cli/main.ts", 'import "../../components/shared/tag.ts";', /src knows no components/],
  ["a component sees the command line", "components/app/app.ts", 'import "../../src/cli/main.ts";', /not for the page/],
  ["a folder is in no layer", "src/tunes/t.ts", 'import "../units/hertz.ts";', /tunes is in no layer/],
  ["a file is not there", "src/pitch/key.ts", 'import "./gone.ts";', /there is no src\/pitch\/gone\.ts/],
  ["an extension is missing", "src/pitch/key.ts", 'import "../units/hertz";', /with its extension/],
  ["tests are imported", "src/pitch/key.ts", 'import "../../tests/a.ts";\n', /there is no tests\/a\.ts/],
  ["VexFlow outside engraving", "src/score/s.ts", 'import "vexflow/core";', /only src\/engraving/],
  ["tonal outside pitch", "src/pipes/p.ts", 'import { Note } from "tonal";\nexport const n = Note;', /only src\/pitch/],
  ["Lit in src", "src/pipes/p.ts", 'import "lit";', /belongs to components/],
  ["the whole of Tone", "components/sound/out.ts", 'import "tone";', /import its files/],
  ["Lit's own styleMap", "components/grid/d.ts", 'import "lit/directives/style-map.js";', /use components\/shared/],
  ["Tone in src", "src/playback/p.ts", 'import "tone/build/esm/core/Global.js";', /belongs to components/],
  ["Node outside the command line", "src/exchange/e.ts", 'import "node:fs";', /only src\/cli/],
  ["an enum", "src/pitch/e.ts", "export enum E { a }", /enum/],
  ["a namespace", "src/pitch/e.ts", "export namespace N { export const a = 1; }", /namespace/],
  ["a decorator", "components/grid/d.ts", "const d = (x: unknown) => x;\n@d class K {}\nexport const k = K;", /decorator/],
  ["any", "src/pitch/e.ts", "export const a = (x: any): unknown => x;", /any/],
  ["the time of day", "src/pitch/e.ts", "export const a = new Date();", /time comes in/],
  ["the time of day, short", "src/pitch/e.ts", "export const a = () => Date.now();", /time comes in/],
  ["chance", "src/pitch/e.ts", "export const a = () => Math.random();", /same input/],
  [
    "a style attribute",
    "components/grid/d.ts",
    'import { html } from "lit";\nexport const a = html`<p style="color:red">x</p>`;',
    /styleMap/,
  ],
  [
    "half a style attribute",
    "components/grid/d.ts",
    `import { html } from "lit";\nexport const a = (w: number) => html\`<p style="width:\${w}px">x</p>\`;`,
    /styleMap/,
  ],
  ["innerHTML", "components/grid/d.ts", "export const a = (e: Element) => { e.innerHTML = '<b>'; };", /innerHTML/],
  ["a barrel", "src/pitch/index.ts", "export {};", /barrel/],
  ["a long file", "src/pitch/long.ts", "// x\n".repeat(501), /502 lines/],
  ["a machine's path", "scripts/a.mjs", `const a = "${"/ho"}me/mairi/ninefold";`, /path of one machine/],
  ["a registry", "package-lock.json", `{"resolved": "https://${"regis"}try.example/x.tgz"}`, /address of a registry/],
])("is found: %s", (_, path, text, words) => {
  const broken = rulesBrokenWith({ [path]: text });
  expect(broken.filter((line) => words.test(line) && line.startsWith(`${path}:`))).toHaveLength(1);
});

test("a ring of imports is found, inside a folder and through types", () => {
  const broken = rulesBrokenWith({
    "src/pitch/one.ts": 'import type { Two } from "./two.ts";\nexport type One = Two;',
    "src/pitch/two.ts": 'import type { One } from "./one.ts";\nexport type Two = One;',
  });
  expect(broken).toEqual(["a ring of imports: src/pitch/one.ts → src/pitch/two.ts → src/pitch/one.ts"]);
});
