import type { Paper } from "../../engraving/page-drawing.ts";
import { type Handout, type HandoutKind, handoutKindsFor, handoutOf } from "../../exchange/handouts.ts";
import type { Line, Score } from "../../score/score.ts";
import { ReadError } from "../../units/read-error.ts";
import type { Command } from "../command.ts";
import { readSketch } from "../read-sketch.ts";
import { type FileToWrite, writeFiles } from "../write-files.ts";

/** What a part can be written as. */
const FORMATS = ["svg", "pdf", "musicxml"] as const;
type Format = (typeof FORMATS)[number];

const PAPERS = ["a4", "letter"] as const satisfies readonly Paper[];

/** What pipers can have on paper besides their part. */
const EXTRAS = ["learner", "charts"] as const satisfies readonly HandoutKind[];

/** One file, as `--json` tells of it. */
interface WrittenPart {
  readonly player: string;
  readonly kind: HandoutKind;
  readonly format: Format;
  /** Absolute. */
  readonly path: string;
}

type PartFile = FileToWrite & Omit<WrittenPart, "path">;

/** `ninefold parts`: what each player reads, as files. */
export const command: Command = {
  name: "parts",
  positionals: ["SKETCH"],
  options: {
    out: { kind: "value", value: "FOLDER", help: "where the files go; made where it is missing (needed)" },
    players: { kind: "value", value: "ID,…", help: "whose parts; else everybody's" },
    as: { kind: "value", value: FORMATS.join(","), help: "which formats; else all" },
    paper: { kind: "value", value: PAPERS.join("|"), help: "which paper SVG and PDF are for; else a4" },
    also: {
      kind: "value",
      value: EXTRAS.join(","),
      help: "for pipers, besides the part: it with a hole chart at every note, the setup's chart page",
    },
    chords: { kind: "flag", help: "the band's chords over the pipe part too, at written pitch" },
  },
  async run({ positionals, values, flags }, { resolvePath }) {
    const [sketch] = positionals as readonly [string];
    const folder = values.out;
    if (folder === undefined || folder === "") throw new ReadError({ where: "--out", expected: "a folder", found: "nothing" });
    const formats = listed("--as", values.as, FORMATS) ?? FORMATS;
    const paper = paperFrom(values.paper);
    const extras = listed("--also", values.also, EXTRAS) ?? [];
    const score = await readSketch(resolvePath(sketch), sketch);
    const lines = linesFrom(values.players, score);
    const handouts = lines.map((line) =>
      handoutKindsFor(line)
        .filter((kind) => kind === "part" || extras.includes(kind))
        .map((kind) => handoutOf(score, line, kind, { paper, chords: flags.has("chords") })),
    );
    // Every file is written in the mind first: a part that cannot be made must not leave half of the others behind.
    const files: PartFile[] = [];
    for (const [index, line] of lines.entries()) files.push(...(await filesOf(score, line, handouts[index] ?? [], formats)));
    const paths = await writeFiles(resolvePath(folder), folder, files);
    const written = files.map(({ player, kind, format }, index): WrittenPart => ({ player, kind, format, path: paths[index] as string }));
    const output = flags.has("json") ? JSON.stringify({ files: written }) : written.map(({ path }) => path).join("\n");
    const aside = formats.includes("pdf") ? await asideOn(handouts.flat()) : null;
    return aside === null ? output : { output, aside };
  },
};

/** The files of one player. What writes a format is loaded when that format is asked for. */
async function filesOf(score: Score, line: Line, handouts: readonly Handout[], formats: readonly Format[]): Promise<readonly PartFile[]> {
  const files: PartFile[] = [];
  for (const { player, kind, label, fileName, pages } of handouts) {
    const file = (format: Format, content: string | Uint8Array) =>
      files.push({ player, kind, format, name: `${fileName}.${format}`, content });
    if (formats.includes("svg")) {
      const { svgOfPages } = await import("../../exchange/svg.ts");
      file("svg", await svgOfPages(pages, `${score.title}, ${label}`));
    }
    if (formats.includes("pdf")) {
      const { pdfOf } = await import("../../exchange/pdf.ts");
      file("pdf", await pdfOf(pages, { title: score.title, player: label, revision: score.revision }));
    }
  }
  if (formats.includes("musicxml")) {
    const { musicxmlOfPart } = await import("../../exchange/musicxml-score.ts");
    // A chart page has no music.
    for (const { player, kind, fileName } of handouts.filter((one) => one.kind !== "charts")) {
      const content = musicxmlOfPart(score, line, { charts: kind === "learner" ? "every-note" : "cross-fingered" });
      files.push({ player, kind, format: "musicxml", name: `${fileName}.musicxml`, content });
    }
  }
  return files;
}

/** What to know of PDFs that could not have every letter. */
async function asideOn(handouts: readonly Handout[]): Promise<string | null> {
  const { lettersWithoutFont } = await import("../../exchange/paper-fonts.ts");
  const letters = await lettersWithoutFont(handouts.flatMap(({ pages }) => pages));
  if (letters.length === 0) return null;
  return `no font for ${letters.join(" ")}: the PDF shows the Unicode number of each`;
}

function paperFrom(text = "a4"): Paper {
  const paper = PAPERS.find((one) => one === text.trim());
  if (paper === undefined) throw new ReadError({ where: "--paper", expected: `one of ${PAPERS.join(", ")}`, found: JSON.stringify(text) });
  return paper;
}

function linesFrom(text: string | undefined, score: Score): readonly Line[] {
  const ids = listed(
    "--players",
    text,
    score.lines.map(({ id }) => id),
  );
  return ids === null ? score.lines : score.lines.filter(({ id }) => ids.includes(id));
}

/**
 * Words with commas between them, each once, in the order of those known; null where nothing was given.
 * @throws ReadError when one is not among those known.
 */
function listed<Word extends string>(where: string, text: string | undefined, known: readonly Word[]): readonly Word[] | null {
  if (text === undefined) return null;
  const words = text.split(",").map((word) => word.trim());
  const unknown = words.find((word) => !(known as readonly string[]).includes(word));
  if (unknown === undefined) return known.filter((word) => words.includes(word));
  const expected = known.length === 1 ? `${known[0]}` : `one or more of ${known.join(", ")}`;
  throw new ReadError({ where, expected, found: unknown === "" ? "nothing" : JSON.stringify(unknown) });
}
