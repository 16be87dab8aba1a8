import { readFile } from "node:fs/promises";
import subsetFont from "subset-font";
import { packaged, range } from "./font-files.mjs";

/** The letters that parts can be written with, by the files that the faces come in. */
export const SCRIPTS = {
  latin: `${text(0x20, 0x7e)}${text(0xa0, 0xff)}Œœıˆ˜–—‘’‚“”„•…‹›€−′″`,
  "latin-ext": `${text(0x100, 0x130)}${text(0x134, 0x151)}${text(0x154, 0x165)}${text(0x168, 0x17f)}ȘșȚțẀẁẂẃẄẅẞỲỳ`,
  greek: `${text(0x386, 0x386)}${text(0x388, 0x38a)}Ό${text(0x38e, 0x3a1)}${text(0x3a3, 0x3ce)}`,
  cyrillic: `${text(0x400, 0x45f)}Ґґ`,
};

const SERIF = "@fontsource-variable/source-serif-4/files/source-serif-4";
const SANS = "@fontsource-variable/source-sans-3/files/source-sans-3";

/** The faces of words on paper, at the weights that are used. */
export const FACES = [
  { name: "serif400", from: SERIF, style: "normal", weight: 400 },
  { name: "serif600", from: SERIF, style: "normal", weight: 600 },
  { name: "italic400", from: SERIF, style: "italic", weight: 400 },
  { name: "sans400", from: SANS, style: "normal", weight: 400 },
  { name: "sans600", from: SANS, style: "normal", weight: 600 },
];

/**
 * One face at one weight with the letters of one script: outlines and widths, and nothing else, since words are set letter by letter.
 * @param {typeof FACES[number]} face
 * @param {keyof typeof SCRIPTS} script
 */
export async function faceOf({ from, style, weight }, script) {
  return subsetFont(await readFile(packaged(`${from}-${script}-wght-${style}.woff2`)), SCRIPTS[script], {
    targetFormat: "sfnt",
    variationAxes: { wght: weight },
    keepFeatures: [],
    dropTables: ["GDEF", "GPOS", "GSUB"],
    noHinting: true,
  });
}

/**
 * @param {number} first
 * @param {number} last included
 */
function text(first, last) {
  return range(first, last)
    .map((code) => String.fromCodePoint(code))
    .join("");
}
