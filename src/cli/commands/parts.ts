import { partFileNames } from "../../exchange/file-names.ts";
import { musicxmlOfPart } from "../../exchange/musicxml-score.ts";
import { svgOfWholePart } from "../../exchange/svg.ts";
import type { Line, Score } from "../../score/score.ts";
import { ReadError } from "../../units/read-error.ts";
import type { Command } from "../command.ts";
import { readSketch } from "../read-sketch.ts";
import { type FileToWrite, writeFiles } from "../write-files.ts";

/** What a part can be written as. */
const FORMATS = ["svg", "musicxml"] as const;
type Format = (typeof FORMATS)[number];

/** One file, as `--json` tells of it. */
interface WrittenPart {
  readonly player: string;
  readonly format: Format;
  /** Absolute. */
  readonly path: string;
}

/** `ninefold parts`: what each player reads, as files. */
export const command: Command = {
  name: "parts",
  positionals: ["SKETCH"],
  options: {
    out: { kind: "value", value: "FOLDER", help: "where the files go; made where it is missing (needed)" },
    players: { kind: "value", value: "ID,…", help: "whose parts; else everybody's" },
    as: { kind: "value", value: FORMATS.join(","), help: "which formats; else all" },
  },
  async run({ positionals, values, flags }, { resolvePath }) {
    const [sketch] = positionals as readonly [string];
    const folder = values.out;
    if (folder === undefined || folder === "") throw new ReadError({ where: "--out", expected: "a folder", found: "nothing" });
    const formats = formatsFrom(values.as);
    const score = await readSketch(resolvePath(sketch), sketch);
    const lines = linesFrom(values.players, score);
    const files = filesOf(score, lines, formats);
    const paths = await writeFiles(resolvePath(folder), folder, files);
    const written = files.map(({ player, format }, index): WrittenPart => ({ player, format, path: paths[index] as string }));
    return flags.has("json") ? JSON.stringify({ files: written }) : written.map(({ path }) => path).join("\n");
  },
};

/** Every file, written in the mind only: a part that cannot be made must not leave half of the others behind. */
function filesOf(
  score: Score,
  lines: readonly Line[],
  formats: readonly Format[],
): readonly (FileToWrite & { readonly player: string; readonly format: Format })[] {
  const names = partFileNames(
    score.title,
    score.lines.map(({ name }) => name),
  );
  return lines.flatMap((line) =>
    formats.map((format) => ({
      player: line.id,
      format,
      name: `${names[score.lines.indexOf(line)]}.${format}`,
      text: format === "svg" ? svgOfWholePart(score, line.id) : musicxmlOfPart(score, line),
    })),
  );
}

function formatsFrom(text: string | undefined): readonly Format[] {
  if (text === undefined) return FORMATS;
  return listed("--as", text, FORMATS);
}

function linesFrom(text: string | undefined, score: Score): readonly Line[] {
  if (text === undefined) return score.lines;
  const ids = listed(
    "--players",
    text,
    score.lines.map(({ id }) => id),
  );
  return score.lines.filter(({ id }) => ids.includes(id));
}

/**
 * Words with commas between them, each once.
 * @throws ReadError when one is not among those known.
 */
function listed<Word extends string>(where: string, text: string, known: readonly Word[]): readonly Word[] {
  const words = text.split(",").map((word) => word.trim());
  const unknown = words.find((word) => !(known as readonly string[]).includes(word));
  if (unknown === undefined) return known.filter((word) => words.includes(word));
  const expected = known.length === 1 ? `${known[0]}` : `one or more of ${known.join(", ")}`;
  throw new ReadError({ where, expected, found: unknown === "" ? "nothing" : JSON.stringify(unknown) });
}
