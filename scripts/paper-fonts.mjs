/*
 * The fonts that go into PDF files: each face at one weight, cut to the letters of one script, as data that Node, a browser and a worker
 * import alike. Called by scripts/fonts.mjs; the results are committed.
 */
import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import opentype from "opentype.js";
import { bytesOf } from "./font-files.mjs";
import { FACES, faceOf, SCRIPTS } from "./text-faces.mjs";

const OUT = join(import.meta.dirname, "../src/exchange");

/**
 * @param {{ letters: string, bytes: Uint8Array }} accidentals sharps, flats and naturals, which the text faces do not have
 */
export async function writePaperFonts(accidentals) {
  for (const script of /** @type {(keyof typeof SCRIPTS)[]} */ (Object.keys(SCRIPTS))) {
    /** @type {Record<string, { letters: string, font: string }>} */
    const fonts = {};
    for (const face of FACES) {
      const bytes = await faceOf(face, script);
      const font = opentype.parse(bytesOf(bytes));
      const letters = [...SCRIPTS[script]].filter((letter) => font.charToGlyphIndex(letter) !== 0).join("");
      fonts[face.name] = { letters, font: base64(bytes) };
    }
    if (script === "latin") fonts.accidentals = { letters: accidentals.letters, font: base64(accidentals.bytes) };
    const content = `${JSON.stringify(fonts)}\n`;
    await writeFile(join(OUT, `paper-fonts-${script}.json`), content);
    console.log(`${`paper-fonts-${script}.json`.padEnd(30)} ${(content.length / 1000).toFixed(1).padStart(6)} kB`);
  }
}

/** @param {Uint8Array} bytes */
function base64(bytes) {
  return Buffer.from(bytes).toString("base64");
}
