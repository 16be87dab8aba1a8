/*
 * Makes the engraver's tables from the packages the fonts come in: node scripts/outlines.mjs
 *   src/engraving/glyphs.json         the music signs we draw: advance, box and outline, from Bravura and its SMuFL metadata
 *   src/engraving/text-advances.json  how wide every letter of the text faces is, so that words can be placed without a browser
 *   src/exchange/text-outlines-*.json the letters' outlines by script, so that an SVG file needs no font (loaded when one is written)
 * The results are committed, so this runs only when a sign or a letter is wanted that they do not have.
 */
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import opentype from "opentype.js";
import { bytesOf, packaged, range } from "./font-files.mjs";
import { FACES, faceOf, SCRIPTS } from "./text-faces.mjs";

const ROOT = join(import.meta.dirname, "..");

/** All signs that are drawn: SMuFL code points and the names the metadata knows them by. */
const SIGNS = {
  ...{ gClef: 0xe050, cClef: 0xe05c, fClef: 0xe062 },
  ...Object.fromEntries(range(0, 9).map((digit) => [`timeSig${digit}`, 0xe080 + digit])),
  ...{ noteheadWhole: 0xe0a2, noteheadHalf: 0xe0a3, noteheadBlack: 0xe0a4, augmentationDot: 0xe1e7 },
  ...{ flag8thUp: 0xe240, flag8thDown: 0xe241, flag16thUp: 0xe242, flag16thDown: 0xe243, flag32ndUp: 0xe244, flag32ndDown: 0xe245 },
  ...{
    accidentalFlat: 0xe260,
    accidentalNatural: 0xe261,
    accidentalSharp: 0xe262,
    accidentalDoubleSharp: 0xe263,
    accidentalDoubleFlat: 0xe264,
  },
  ...{ restWhole: 0xe4e3, restHalf: 0xe4e4, restQuarter: 0xe4e5, rest8th: 0xe4e6, rest16th: 0xe4e7, rest32nd: 0xe4e8 },
  restWholeLegerLine: 0xe4f4,
  ...{ tuplet2: 0xe882, tuplet3: 0xe883 },
};

/** Sharps, flats and naturals inside words are Bravura's, raised to the height of a capital, as scripts/fonts.mjs has them. */
const ACCIDENTALS = [
  { sign: "♭", smufl: 0xe260, lift: 175 },
  { sign: "♮", smufl: 0xe261, lift: 335 },
  { sign: "♯", smufl: 0xe262, lift: 335 },
];
const BEARING = 24;

/** How wide a letter is taken to be that a face does not have, in thousandths of the size; src/engraving/text-width.ts says the same. */
const MISSING = 560;

const bravura = parsed(await readFile(packaged("@vexflow-fonts/bravura/bravura.otf")));
await writeGlyphs();
await writeText();

async function writeGlyphs() {
  const metadata = JSON.parse(await readFile(packaged("@vexflow-fonts/bravura/metadata.json"), "utf8"));
  /** @type {Record<string, unknown>} */
  const glyphs = {};
  for (const [name, code] of Object.entries(SIGNS)) {
    const glyph = bravura.charToGlyph(String.fromCodePoint(code));
    const box = metadata.glyphBBoxes[name];
    if (glyph.unicode !== code || box === undefined) throw new Error(`Bravura has no ${name}.`);
    // Staff spaces with y upwards become thousandths of the em (four spaces) with y downwards, as the outlines have it.
    const [left, bottom] = box.bBoxSW.map(thousandths);
    const [right, top] = box.bBoxNE.map(thousandths);
    const advance = thousandths(metadata.glyphAdvanceWidths[name]);
    glyphs[code] = { advance, box: [left, -top, right, -bottom], outline: outline(glyph.path, 0, 0) };
  }
  await write("src/engraving/glyphs.json", glyphs);
}

async function writeText() {
  const signs = ACCIDENTALS.map(({ sign }) => sign).join("");
  /** @type {Record<string, number[]>} */
  const advances = Object.fromEntries(FACES.map(({ name }) => [name, []]));
  for (const script of /** @type {(keyof typeof SCRIPTS)[]} */ (Object.keys(SCRIPTS))) {
    /** @type {Record<string, string[]>} */
    const outlines = {};
    for (const face of FACES) {
      const font = parsed(await faceOf(face, script));
      const scale = 1000 / font.unitsPerEm;
      const glyphs = [...SCRIPTS[script]].map((letter) => font.charToGlyph(letter));
      // What a face lacks is as wide as an "n" and has no outline, so that it is written as text.
      advances[face.name].push(...glyphs.map((glyph) => (glyph.index === 0 ? MISSING : Math.round((glyph.advanceWidth ?? 0) * scale))));
      outlines[face.name] = glyphs.map((glyph) => (glyph.index === 0 ? "-" : outline(glyph.getPath(0, 0, 1000), 0, 0, 1)));
      if (script === "latin") outlines[face.name].push(...ACCIDENTALS.map(accidentalOutline));
    }
    const letters = SCRIPTS[script] + (script === "latin" ? signs : "");
    await write(`src/exchange/text-outlines-${script}.json`, { letters, outlines });
  }
  for (const face of FACES) advances[face.name].push(...ACCIDENTALS.map(({ smufl }) => accidental(smufl).advance));
  await write("src/engraving/text-advances.json", withoutBaseWidths(Object.values(SCRIPTS).join("") + signs, advances));
}

/**
 * Leaves out what the engraver can tell by itself, since its table is in the first load: letters with a mark that are as wide as the letter
 * without it in every face, and the bold sans, which no part is written in.
 * @param {string} letters
 * @param {Record<string, number[]>} advances
 */
function withoutBaseWidths(letters, { sans600: _, ...advances }) {
  const all = [...letters];
  const faces = Object.values(advances);
  const kept = all.map((letter, index) => {
    const base = all.indexOf(String(letter.normalize("NFD")[0]));
    return base === index || base === -1 || faces.some((widths) => widths[base] !== widths[index]);
  });
  return {
    letters: all.filter((_, index) => kept[index]).join(""),
    advances: Object.fromEntries(Object.entries(advances).map(([name, widths]) => [name, widths.filter((_, index) => kept[index])])),
  };
}

/** @param {number} smufl */
function accidental(smufl) {
  const { path, advanceWidth } = bravura.charToGlyph(String.fromCodePoint(smufl));
  return { path, advance: (advanceWidth ?? 0) + 2 * BEARING };
}

/** @param {typeof ACCIDENTALS[number]} sign */
function accidentalOutline({ smufl, lift }) {
  return outline(accidental(smufl).path, BEARING, lift);
}

/**
 * A path as short SVG text: whole numbers, relative steps, y downwards.
 * @param {opentype.Path} path
 * @param {number} right moves it, in its own units
 * @param {number} up
 * @param {1 | -1} flip -1 where the path's y goes upwards
 */
function outline(path, right, up, flip = -1) {
  let text = "";
  let [penX, penY] = [0, 0];
  let [startX, startY] = [0, 0];
  for (const command of path.commands) {
    if (command.type === "Z") {
      text += "z";
      [penX, penY] = [startX, startY];
      continue;
    }
    /** @type {Record<string, number>} */
    const given = { ...command };
    const [fromX, fromY] = [penX, penY];
    const steps = ["1", "2", ""]
      .filter((end) => `x${end}` in given)
      .flatMap((end) => {
        penX = Math.round(Number(given[`x${end}`]) + right);
        penY = Math.round(flip * (Number(given[`y${end}`]) + up));
        return [penX - fromX, penY - fromY];
      });
    text += command.type.toLowerCase() + steps.join(" ").replaceAll(" -", "-");
    if (command.type === "M") [startX, startY] = [penX, penY];
  }
  return text;
}

/**
 * Staff spaces as thousandths of the em, which is four of them.
 * @param {number} spaces
 */
function thousandths(spaces) {
  return Math.round(spaces * 250);
}

/** @param {Uint8Array} bytes */
function parsed(bytes) {
  return opentype.parse(bytesOf(bytes));
}

/**
 * @param {string} path
 * @param {unknown} value
 */
async function write(path, value) {
  const text = `${JSON.stringify(value)}\n`;
  await writeFile(join(ROOT, path), text);
  console.log(`${path.padEnd(36)} ${(text.length / 1000).toFixed(1).padStart(6)} kB`);
}
