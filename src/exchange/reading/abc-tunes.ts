/* Cutting an ABC file into tunes and lines. Source: the ABC music standard 2.1, sections 2 and 3. */

/** A line of an ABC file without its comment. */
export interface AbcLine {
  /** From 1. */
  readonly number: number;
  /** The letter of a field line (`K` of `K:D`), `+` for one that goes on; null for music. */
  readonly field: string | null;
  /** The field's value, trimmed, or the line of music. */
  readonly text: string;
}

/** One tune: its lines, with those of the file's header before them. */
export interface AbcTune {
  readonly title: string;
  readonly lines: readonly AbcLine[];
}

/** Directives between which lines are no music. */
const BLOCKS: Readonly<Record<string, string>> = {
  "%%begintext": "%%endtext",
  "%%beginps": "%%endps",
  "%%beginsvg": "%%endsvg",
  "%%beginml": "%%endml",
};

/** Fields of a file's header that hold for every tune of it. */
const HEADER_FIELDS = new Set(["A", "B", "C", "D", "F", "G", "H", "I", "L", "M", "m", "N", "O", "R", "S", "U", "Z"]);

/** The tunes of a file, in order. A text without any `X:` is one tune, if it has a key. */
export function abcTunes(text: string): readonly AbcTune[] {
  const lines = abcLines(text);
  const starts = lines.flatMap(({ field }, index) => (field === "X" ? [index] : []));
  if (starts.length === 0) return lines.some(({ field }) => field === "K") ? [tuneOf(lines)] : [];
  const header = lines.slice(0, starts[0]).filter(({ field }) => field !== null && HEADER_FIELDS.has(field));
  return starts.map((start, index) => tuneOf([...header, ...lines.slice(start, starts[index + 1])]));
}

function tuneOf(lines: readonly AbcLine[]): AbcTune {
  return { title: lines.find(({ field, text }) => field === "T" && text !== "")?.text ?? "", lines };
}

/**
 * All lines that mean something. A tune ends at an empty line by the standard; files in the wild have empty lines within tunes, so what
 * follows one is taken as long as it looks like ABC: a field, or music with a bar line.
 */
function abcLines(text: string): readonly AbcLine[] {
  const lines: AbcLine[] = [];
  let block: string | null = null;
  let loose = false;
  for (const [index, raw] of text.split("\n").entries()) {
    const trimmed = raw.trim();
    if (block !== null) {
      if (trimmed.startsWith(block)) block = null;
      continue;
    }
    if (trimmed === "") loose = true;
    if (trimmed.startsWith("%")) block = BLOCKS[trimmed.split(/\s/, 1)[0] as string] ?? null;
    const plain = withoutComment(raw);
    if (plain.trim() === "") continue;
    const field = /^\s*([A-Za-z+]):(.*)$/.exec(plain);
    // `A:B` within music cannot be: a colon stands at bar lines only.
    if (field && !/^[|\]:]/.test(field[2] as string)) {
      lines.push({ number: index + 1, field: field[1] as string, text: unescaped((field[2] as string).trim()) });
      if (field[1] === "X") loose = false;
    } else if (!loose || /\||^\s*\[[A-Za-z]:/.test(plain)) {
      lines.push({ number: index + 1, field: null, text: plain });
    }
  }
  return lines;
}

/** What stands before a `%` that is not written `\%`. */
function withoutComment(line: string): string {
  const at = /(^|[^\\])%/.exec(line);
  return at ? line.slice(0, at.index + (at[1] as string).length) : line;
}

/** Accents that follow a backslash, as combining marks; what is no such thing stays. *Source:* ABC 2.1, section 8.2. */
const ACCENTS: Readonly<Record<string, string>> = {
  "`": "\u0300",
  "'": "\u0301",
  "^": "\u0302",
  "~": "\u0303",
  '"': "\u0308",
  u: "\u0306",
  v: "\u030C",
  c: "\u0327",
};
const LETTERS: Readonly<Record<string, string>> = {
  ss: "ß",
  ae: "æ",
  AE: "Æ",
  oe: "œ",
  OE: "Œ",
  aa: "å",
  AA: "Å",
  "/o": "ø",
  "/O": "Ø",
  DH: "Ð",
  dh: "ð",
  TH: "Þ",
  th: "þ",
};

function unescaped(text: string): string {
  return text
    .replace(/\\(ss|ae|AE|oe|OE|aa|AA|\/o|\/O|DH|dh|TH|th)/g, (_, letters: string) => LETTERS[letters] as string)
    .replace(/\\([`'^~"uvc])([A-Za-z])/g, (_, accent: string, letter: string) => (letter + ACCENTS[accent]).normalize("NFC"))
    .replace(/\\([%&])/g, "$1");
}
