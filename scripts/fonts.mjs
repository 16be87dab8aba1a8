/*
 * Makes the fonts in components/shared/fonts, and those for PDF files in src/exchange, from the packages they come in: node scripts/fonts.mjs
 * The results are committed, so this runs only when a character or a weight is wanted that they do not have.
 */
import { copyFile, mkdir, readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import opentype from "opentype.js";
import subsetFont from "subset-font";
import { bytesOf, packaged, range } from "./font-files.mjs";
import { writePaperFonts } from "./paper-fonts.mjs";

const OUT = join(import.meta.dirname, "../components/shared/fonts");

/** ASCII, the letters of western languages for names and words, and the signs that the app writes or a title may have. */
const TEXT = [...range(0x20, 0x7e), ...range(0xc0, 0xff)]
  .map((code) => String.fromCodePoint(code))
  .join("")
  .concat("\u00a0ŒœŠšŽž–—‘’“”…−·×•↑↓′″°±½¼¾¿¡«»§©£€&");

/** Kerning, marks, ligatures, and lining and tabular figures; nothing on screen asks for more. */
const FEATURES = ["ccmp", "kern", "liga", "lnum", "locl", "mark", "mkmk", "tnum"];

/**
 * The optical size axis would double the roman (30 kB to 62 kB) for a difference that is small between 12 and 27 px, so it is left out.
 * The italic only explains; it is never bold.
 */
const FACES = [
  {
    out: "source-serif-4.woff2",
    from: "@fontsource-variable/source-serif-4/files/source-serif-4-latin-wght-normal.woff2",
    weight: { min: 400, max: 600 },
  },
  {
    out: "source-serif-4-italic.woff2",
    from: "@fontsource-variable/source-serif-4/files/source-serif-4-latin-wght-italic.woff2",
    weight: 400,
  },
  {
    out: "source-sans-3.woff2",
    from: "@fontsource-variable/source-sans-3/files/source-sans-3-latin-wght-normal.woff2",
    weight: { min: 400, max: 600 },
  },
];

const LICENCES = [
  { out: "OFL-source-serif-4.txt", from: "@fontsource-variable/source-serif-4/LICENSE" },
  { out: "OFL-source-sans-3.txt", from: "@fontsource-variable/source-sans-3/LICENSE" },
  { out: "OFL-bravura.txt", from: "@vexflow-fonts/bravura/LICENSE.txt" },
];

/**
 * Sharps, flats and naturals for use inside words, so that "F♯" in a sentence has the same sharp as the part beside it. In Bravura
 * they are centred on the baseline (SMuFL); here each is raised by `lift` font units of 1000, to fill the height of a capital
 * (670 units in the serif, 660 in the sans).
 */
const ACCIDENTALS = [
  { sign: "♭", smufl: 0xe260, lift: 175 },
  { sign: "♮", smufl: 0xe261, lift: 335 },
  { sign: "♯", smufl: 0xe262, lift: 335 },
  { sign: "𝄪", smufl: 0xe263, lift: 335 },
  { sign: "𝄫", smufl: 0xe264, lift: 175 },
];

/** Room left and right of an accidental inside a word, in font units. */
const BEARING = 24;

await mkdir(OUT, { recursive: true });
for (const { out, from, weight } of FACES) {
  const font = await subsetFont(await readFile(packaged(from)), TEXT, {
    targetFormat: "woff2",
    variationAxes: { wght: weight },
    keepFeatures: FEATURES,
    noHinting: true,
  });
  await write(out, font);
}
await write("accidentals.woff2", await accidentals("woff2"));
await writePaperFonts({ letters: ACCIDENTALS.map(({ sign }) => sign).join(""), bytes: await accidentals("sfnt") });
for (const { out, from } of LICENCES) await copyFile(packaged(from), join(OUT, out));

/**
 * A font of its own name: Bravura's licence reserves "Bravura" for the unchanged font.
 * @param {"woff2" | "sfnt"} targetFormat
 */
async function accidentals(targetFormat) {
  const bravura = opentype.parse(bytesOf(await readFile(packaged("@vexflow-fonts/bravura/bravura.otf"))));
  const glyphs = ACCIDENTALS.map(({ sign, smufl, lift }) => {
    const glyph = bravura.charToGlyph(String.fromCodePoint(smufl));
    const path = new opentype.Path();
    path.commands = glyph.path.commands.map((command) => moved(command, BEARING, lift));
    return new opentype.Glyph({
      name: `uni${sign.codePointAt(0)?.toString(16).toUpperCase()}`,
      unicode: sign.codePointAt(0),
      advanceWidth: (glyph.advanceWidth ?? 0) + 2 * BEARING,
      path,
    });
  });
  const notdef = new opentype.Glyph({ name: ".notdef", unicode: 0, advanceWidth: 500, path: new opentype.Path() });
  const font = new opentype.Font({
    familyName: "Ninefold Accidentals",
    styleName: "Regular",
    unitsPerEm: 1000,
    ascender: 1000,
    descender: -300,
    glyphs: [notdef, ...glyphs],
  });
  const signs = ACCIDENTALS.map(({ sign }) => sign).join("");
  return subsetFont(Buffer.from(font.toArrayBuffer()), signs, { targetFormat });
}

/**
 * @param {opentype.PathCommand} command
 * @param {number} right
 * @param {number} up
 */
function moved(command, right, up) {
  const copy = { ...command };
  for (const key of /** @type {const} */ (["x", "x1", "x2"])) if (key in copy) copy[key] += right;
  for (const key of /** @type {const} */ (["y", "y1", "y2"])) if (key in copy) copy[key] += up;
  return copy;
}

/**
 * @param {string} out
 * @param {Uint8Array} bytes
 */
async function write(out, bytes) {
  await writeFile(join(OUT, out), bytes);
  console.log(`${out.padEnd(30)} ${(bytes.length / 1000).toFixed(1).padStart(6)} kB`);
}
