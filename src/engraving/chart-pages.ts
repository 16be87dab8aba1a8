import { HOLE_NAMES } from "../pipes/fingerings.ts";
import { noteName } from "../pipes/note-names.ts";
import { lowASentence } from "../pipes/pitch-sentences.ts";
import { type ChartedNote, type SetupChart, setupChart } from "../pipes/setup-chart.ts";
import { chanterWords, crossFingeringWords, droneWords, scaleWords } from "../pipes/setup-words.ts";
import { writtenSpellingOf } from "../pipes/written-pitch.ts";
import { shownPitch } from "../pitch/spelling.ts";
import type { PipeLine, Score } from "../score/score.ts";
import { shownCents } from "../units/shown.ts";
import { groupOf, hundredths } from "./boxes.ts";
import { type Anchor, type Mark, type MarkGroup, STAFF_HEIGHT, STAFF_SPACE } from "./drawing.ts";
import { glyphWidth, SIGN } from "./glyph-table.ts";
import { chartLength, holeColumn } from "./hole-chart.ts";
import { MILLIMETRES, PAPER_SIZE, type PageDrawing, type Paper } from "./page-drawing.ts";
import { footerGroup, type PageType, titleOf } from "./page-words.ts";
import { staffY } from "./signature.ts";
import { textWidth } from "./text-width.ts";

/*
 * A setup at the wall: what every note is, how it is fingered, how it sounds.
 *
 *    B♭ chanter
 *    ═𝄞══○══○══○══   written
 *      low G …
 *  thumb         ●  ●  ●
 *  upper index   ●  ●  ●    holes, large
 *  …
 *  sounds  A♭4 …
 *  Hz      408.0 …
 *  cents   −31 …
 *    Drones  ▬▬▬▬▬▬▬  as long as they are against each other
 */

/** Paper left free all round: 15 mm. */
const MARGIN = 15 / MILLIMETRES;

/** What stands left of the columns. */
const LABELS = 90;

const TITLE: PageType = { face: "serif", weight: 600, size: 30 };
const HEADING: PageType = { face: "serif", weight: 600, size: 17 };
const SENTENCE: PageType = { face: "serif", weight: 400, size: 14 };
const NAME: PageType = { face: "serif", weight: 600, size: 12.5 };
const PITCH: PageType = { face: "serif", weight: 600, size: 17 };
const FIGURE: PageType = { face: "sans", weight: 400, size: 14 };
const LABEL: PageType = { face: "italic", weight: 400, size: 13 };

const LINE = 19;

/** The staff of the chart is larger than that of a part, so that it is read from a step away. */
const STAFF_SCALE = 1.5;

/** Holes as large as the columns of twelve notes leave room for. */
const HOLES = { radius: 16, step: 46, gap: 24 } as const;

/** From row to row of words. */
const ROW = 26;

const DRONE_ROW = 27;
const DRONE_THICKNESS = 7;

/** The chart page of a set of pipes: one page, whatever speaks. Its figures are for the score's band A. */
export function chartPagesOf(score: Score, line: PipeLine, paper: Paper): readonly PageDrawing[] {
  const [width, height] = PAPER_SIZE[paper].map((millimetres) => hundredths(millimetres / MILLIMETRES)) as [number, number];
  const chart = setupChart(line.setup, score.bandA);
  const [left, right] = [MARGIN, width - MARGIN];
  const pen = new Pen();
  let y = MARGIN + 26;
  pen.words(chanterWords(line.setup), left, y, TITLE);
  y += 28;
  for (const sentence of wrapped(setupSentences(score, line), right - left, SENTENCE)) {
    pen.words(sentence, left, y, SENTENCE);
    y += LINE;
  }
  const columns = columnsOf(chart.notes, left + LABELS, right);
  y = drawNotes(pen, columns, left, right, y + 34);
  y = drawHoles(pen, columns, left, y + 20);
  y = drawFigures(pen, columns, left, right, y + 26);
  drawDrones(pen, chart, left, right, y + 34);
  const footer = `${titleOf(score)} · ${line.name} · revision ${score.revision} · fingering chart`;
  return [{ paper, width, height, staves: [], groups: [...pen.groups, footerGroup(footer, width / 2, height - MARGIN + 8)] }];
}

/** The setup in sentences, as the app says it. */
function setupSentences({ bandA }: Score, { setup }: PipeLine): string {
  const { subject, rest } = crossFingeringWords(setup, null);
  return `${lowASentence(setup, bandA)} Scale: ${scaleWords(setup)}. ${subject}${rest}. Drones: ${droneWords(setup)}.`;
}

/** A note and the middle of its column. */
interface Column {
  readonly charted: ChartedNote;
  readonly x: number;
}

function columnsOf(notes: readonly ChartedNote[], left: number, right: number): readonly Column[] {
  const step = (right - left) / notes.length;
  return notes.map((charted, index) => ({ charted, x: left + (index + 0.5) * step }));
}

/** The staff with every note as it is written, and their names under it. Returns the baseline of the names. */
function drawNotes(pen: Pen, columns: readonly Column[], left: number, right: number, top: number): number {
  const at = (y: number) => hundredths(top + y * STAFF_SCALE);
  const glyph = (code: number, x: number, y: number): Mark => ({ kind: "glyph", code, x: hundredths(x), y: at(y), scale: STAFF_SCALE });
  const level = (x1: number, x2: number, y: number, width: number): Mark => ({
    kind: "line",
    x1: hundredths(x1),
    y1: at(y),
    x2: hundredths(x2),
    y2: at(y),
    width,
  });
  pen.put(
    "staff",
    [0, 1, 2, 3, 4].map((line) => level(left, right, line * STAFF_SPACE, 1)),
  );
  pen.put("signature", [glyph(SIGN.clef.treble, left + 6, 3 * STAFF_SPACE)]);
  for (const { charted, x } of columns) {
    const { letter, octave } = writtenSpellingOf(charted.note);
    const y = staffY(letter, octave, "treble");
    const head = glyphWidth(SIGN.head.whole) * STAFF_SCALE;
    const marks: Mark[] = [glyph(SIGN.head.whole, x - head / 2, y)];
    if (y <= -STAFF_SPACE) marks.unshift(level(x - head / 2 - 4, x + head / 2 + 4, -STAFF_SPACE, 1.2));
    const accidental = printedAccidental(charted);
    if (accidental !== null) marks.push(glyph(accidental, x - head / 2 - glyphWidth(accidental) * STAFF_SCALE - 3, y));
    pen.put("note", marks);
  }
  const baseline = top + STAFF_HEIGHT * STAFF_SCALE + 32;
  for (const { charted, x } of columns) pen.words(noteName(charted.note), x, baseline, NAME, "middle");
  return baseline;
}

/** C and F are understood sharp: only the cross-fingered notes have an accidental. */
function printedAccidental({ note }: ChartedNote): number | null {
  if (note === "high-g-sharp") return SIGN.accidentals[3];
  return note === "c-natural" || note === "f-natural" ? SIGN.accidentals[2] : null;
}

/** The holes of every note, and the fingers' names. Returns where the holes end. */
function drawHoles(pen: Pen, columns: readonly Column[], left: number, top: number): number {
  for (const { charted, x } of columns) pen.put("holes", holeColumn(charted.holes, x, top, HOLES).map(heavy));
  for (const [index, finger] of HOLE_NAMES.entries()) {
    const hands = index === 0 ? 0 : index < 4 ? 1 : 2;
    const y = top + HOLES.radius + index * HOLES.step + hands * HOLES.gap;
    pen.words(finger, left, y + LABEL.size * 0.3, LABEL);
  }
  return top + chartLength(HOLES);
}

/** A ring of this size has a stroke to match: as a path, since circles are drawn with a hair. */
function heavy(mark: Mark): Mark {
  if (mark.kind !== "circle" || mark.filled) return mark;
  const { x, y, radius } = mark;
  return { kind: "path", d: circlePath(x, y, radius, 1) + circlePath(x, y, radius - RING, -1) };
}

const RING = 1.8;

/** Four curves make a circle to within a thousandth. *Source:* the usual approximation, 4/3 (√2 − 1). */
const ROUND = (4 / 3) * (Math.SQRT2 - 1);

function circlePath(x: number, y: number, radius: number, turn: 1 | -1): string {
  const at = (dx: number, dy: number) => `${hundredths(x + radius * dx)} ${hundredths(y + turn * radius * dy)}`;
  const quarter = (fromX: number, fromY: number, toX: number, toY: number) =>
    `C${at(fromX + ROUND * toX, fromY + ROUND * toY)} ${at(toX + ROUND * fromX, toY + ROUND * fromY)} ${at(toX, toY)}`;
  return `M${at(1, 0)}${quarter(1, 0, 0, 1)}${quarter(0, 1, -1, 0)}${quarter(-1, 0, 0, -1)}${quarter(0, -1, 1, 0)}Z`;
}

/** What every note sounds: its name, its hertz, how far it is from the band. Returns the last baseline. */
function drawFigures(pen: Pen, columns: readonly Column[], left: number, right: number, top: number): number {
  const rows: readonly (readonly [label: string, type: PageType, words: (charted: ChartedNote) => string])[] = [
    ["sounds", PITCH, ({ concert }) => shownPitch(concert)],
    ["hertz", FIGURE, ({ hertz }) => hertz.toFixed(1)],
    ["cents off band", FIGURE, ({ offBand }) => shownCents(offBand)],
  ];
  pen.rule(left, right, top - 12);
  let y = top + 10;
  for (const [label, type, wordsOf] of rows) {
    pen.words(label, left, y, LABEL);
    for (const { charted, x } of columns) pen.words(wordsOf(charted), x, y, type, "middle");
    y += ROW;
  }
  y -= ROW;
  pen.rule(left, right, y + 14);
  return y;
}

/** Every drone that sounds, as long as its air column is against the longest, with what it sounds. */
function drawDrones(pen: Pen, { drones }: SetupChart, left: number, right: number, top: number): void {
  const longest = Math.min(...drones.map(({ hertz }) => hertz));
  pen.words("Drones", left, top + 10, HEADING);
  if (drones.length === 0) pen.words("none", left + LABELS, top + 10, SENTENCE);
  const words = right - 210;
  for (const [index, { name, concert, hertz }] of drones.entries()) {
    const y = top + 10 + index * DRONE_ROW;
    const from = left + LABELS + 12;
    const length = (words - 20 - from) * (longest / hertz);
    const [x1, x2, y1, y2] = [from, from + length, y - 5 - DRONE_THICKNESS / 2, y - 5 + DRONE_THICKNESS / 2].map(hundredths);
    pen.put("furniture", [{ kind: "path", d: `M${x1} ${y1}L${x2} ${y1}L${x2} ${y2}L${x1} ${y2}Z` }]);
    pen.words(name, words, y, LABEL);
    pen.words(shownPitch(concert), words + 86, y, PITCH);
    pen.words(`${hertz.toFixed(1)} Hz`, right, y, FIGURE, "end");
  }
}

/** Words in lines no wider than this. */
function wrapped(sentences: string, width: number, { face, weight, size }: PageType): readonly string[] {
  const lines: string[] = [];
  for (const word of sentences.split(" ")) {
    const longer = `${lines.at(-1) ?? ""} ${word}`;
    if (lines.length > 0 && textWidth(longer, face, weight, size) <= width) lines[lines.length - 1] = longer;
    else lines.push(word);
  }
  return lines;
}

/** Collects the groups of a page. */
class Pen {
  readonly groups: MarkGroup[] = [];

  put(role: MarkGroup["role"], marks: readonly Mark[]): void {
    this.groups.push(groupOf(role, null, marks));
  }

  words(text: string, x: number, y: number, { face, weight, size }: PageType, anchor: Anchor = "start"): void {
    this.put("furniture", [{ kind: "text", x: hundredths(x), y: hundredths(y), text, face, weight, size, anchor }]);
  }

  rule(x1: number, x2: number, y: number): void {
    this.put("furniture", [{ kind: "line", x1: hundredths(x1), y1: hundredths(y), x2: hundredths(x2), y2: hundredths(y), width: 0.8 }]);
  }
}
