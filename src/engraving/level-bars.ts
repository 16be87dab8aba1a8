import type { Line, Score } from "../score/score.ts";
import { OVER_INK } from "./around-staff.ts";
import { type BarDrawing, STAFF_HEIGHT } from "./drawing.ts";
import { headingReach } from "./heading-run.ts";
import { type BarPlace, CHART_TOP, CHORD_BASELINE, ENDING_TOP, HEADING_BASELINE, SYLLABLE_BASELINE } from "./part-facts.ts";
import { type PartStyle, PLAIN_STYLE } from "./part-style.ts";
import { stretchDrawing } from "./stretch-drawing.ts";
import type { Stretch } from "./stretches.ts";
import type { System } from "./systems.ts";

/** Where chords, syllables, charts and endings stand in all bars of a line of staff. */
type Levels = Required<Pick<BarPlace, "chordBaseline" | "syllableBaseline" | "headingBaseline" | "endingTop" | "chartTop">>;

/** From a heading to whatever stands beside it. */
const BESIDE = 6;

const USUAL: Levels = {
  chordBaseline: CHORD_BASELINE,
  syllableBaseline: SYLLABLE_BASELINE.page,
  headingBaseline: HEADING_BASELINE,
  endingTop: ENDING_TOP,
  chartTop: CHART_TOP,
};

/** The stretches of one line of staff in natural spacing, so wide; chords, endings and syllables are each at one height in all of them. */
export function levelBars(
  score: Score,
  line: Line,
  { last, stretches }: System,
  widths: readonly number[],
  style: PartStyle = PLAIN_STYLE,
): readonly BarDrawing[] {
  const draw = (levels: Levels) =>
    stretches.map((stretch, index) =>
      stretchDrawing(score, line, stretch, {
        spacing: "page",
        width: widths[index] as number,
        firstInSystem: index === 0,
        lastInSystem: stretch.last === last,
        style,
        ...levels,
      }),
    );
  const start = { spacing: "page", width: 0, firstInSystem: true, lastInSystem: false, style } as const;
  const reach = headingReach(score, line, stretches[0] as Stretch, start);
  let levels = USUAL;
  let drawn = draw(levels);
  // What one bar raises is raised in all, which may in turn raise what stands over it: two rows over each other, so two more drawings at most.
  for (let pass = 0; pass < 2; pass += 1) {
    const level = levelsOf(drawn, levels, reach);
    if (JSON.stringify(level) === JSON.stringify(levels)) break;
    levels = level;
    drawn = draw(levels);
  }
  return drawn;
}

/** The highest chords and endings and the lowest charts and syllables of a line of staff, and no nearer to it than they were. */
function levelsOf(drawn: readonly BarDrawing[], least: Levels, headingReach: number): Levels {
  return {
    chordBaseline: Math.min(least.chordBaseline, ...drawn.flatMap((one) => baselines(one, "chord"))),
    syllableBaseline: Math.max(least.syllableBaseline, ...drawn.flatMap((one) => baselines(one, "syllable").slice(0, 1))),
    headingBaseline: Math.min(least.headingBaseline, topUnderHeading(drawn, headingReach) - OVER_INK),
    endingTop: Math.min(least.endingTop, ...drawn.flatMap(endingTops)),
    chartTop: Math.max(least.chartTop, ...drawn.flatMap(chartTops)),
  };
}

/** The highest ink that a heading runs on over: what stands in the bars after its own. */
function topUnderHeading(drawn: readonly BarDrawing[], reach: number): number {
  let [x, top] = [drawn[0]?.width ?? 0, 0];
  for (const { width, groups } of drawn.slice(1)) {
    for (const { box } of groups) if (x + box.left < reach + BESIDE && box.top < top) top = box.top;
    x += width;
  }
  return top;
}

/** The top of a bar's ending bracket, half its stroke taken off. */
function endingTops({ groups }: BarDrawing): readonly number[] {
  return groups.filter(({ role }) => role === "ending").map(({ box }) => box.top + 0.5);
}

/** Where a bar's charts under the staff begin. */
function chartTops({ groups }: BarDrawing): readonly number[] {
  return groups.filter(({ role, box }) => role === "holes" && box.top > STAFF_HEIGHT).map(({ box }) => box.top);
}

/** The baselines of a bar's words of one kind, first to last. */
function baselines({ groups }: BarDrawing, role: "chord" | "syllable"): readonly number[] {
  return groups
    .filter((group) => group.role === role)
    .flatMap(({ marks }) => marks.flatMap((mark) => (mark.kind === "text" ? [mark.y] : [])));
}
