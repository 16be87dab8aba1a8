/* One cold run of our engraver: the score is made first, then widths and drawing of every bar of every part. Prints what it took, in ms. */
import { benchScore } from "./bench-score.ts";

const [bars = "200"] = process.argv.slice(2);
const score = benchScore(Number(bars));

const began = performance.now();
const [{ screenWidths }, { engravedBar }] = await Promise.all([
  import("../../src/engraving/screen-widths.ts"),
  import("../../src/engraving/engrave-part.ts"),
]);
const loaded = performance.now();

/** Every bar of both parts; the number of marks, so that nothing can be left out unseen. */
function engraveAll(of: typeof score): number {
  const widths = screenWidths(of);
  let marks = 0;
  for (const line of of.lines) {
    for (const [bar, width] of widths.entries()) {
      const place = { spacing: "desk", width, firstInSystem: bar === 0, lastInSystem: bar === widths.length - 1 } as const;
      for (const group of engravedBar(of, line, bar, place).groups) marks += group.marks.length;
    }
  }
  return marks;
}

const ink = engraveAll(score);
const drawn = performance.now();
// Other music, so that no cache can answer for it; by now the engine has compiled what it will.
const warmScore = benchScore(Number(bars), 2);
const warmBegan = performance.now();
engraveAll(warmScore);
const warm = performance.now() - warmBegan;
console.log(JSON.stringify({ load: loaded - began, engrave: drawn - loaded, warm, ink }));
