import type { Face, TextMark } from "../engraving/drawing.ts";
import type { PageDrawing } from "../engraving/page-drawing.ts";
import { type Script, scriptsOf, wordsOf } from "./letter-scripts.ts";

/*
 * The fonts that PDF files take their letters from, cut by script so that only what a part needs is loaded. scripts/fonts.mjs makes them.
 */

/** A font as the files have it: the letters that it has, and its bytes in base64. */
interface StoredFont {
  readonly letters: string;
  readonly font: string;
}

type StoredFonts = Readonly<Record<string, StoredFont>>;

/** The name of a text face at one weight: `serif600`. */
export type FaceName = `${Face}${TextMark["weight"]}`;

/** A font that letters can be taken from. */
export interface PaperFont {
  readonly name: string;
  readonly bytes: Uint8Array;
}

/** Which font has a letter in a face; null where none has. */
export type PaperFonts = (letter: string, face: Face, weight: TextMark["weight"]) => PaperFont | null;

// Without import attributes, which the development server passes on to the browser although it serves a script.
const FILES: Readonly<Record<Script, () => Promise<{ readonly default: StoredFonts }>>> = {
  latin: () => import("./paper-fonts-latin.json"),
  "latin-ext": () => import("./paper-fonts-latin-ext.json"),
  greek: () => import("./paper-fonts-greek.json"),
  cyrillic: () => import("./paper-fonts-cyrillic.json"),
};

/** Fetches the fonts for all words of some pages. */
export async function paperFontsFor(pages: readonly PageDrawing[]): Promise<PaperFonts> {
  const scripts = scriptsOf(wordsOf(pages).join(""));
  const files = await Promise.all(scripts.map(async (script) => ({ script, fonts: (await FILES[script]()).default })));
  const opened = files.flatMap(({ script, fonts }) =>
    Object.entries(fonts).map(([face, stored]) => {
      let bytes: Uint8Array | null = null;
      const font: PaperFont = {
        name: `${face} ${script}`,
        get bytes() {
          bytes ??= bytesOfBase64(stored.font);
          return bytes;
        },
      };
      return { face, letters: new Set(stored.letters), font };
    }),
  );
  return (letter, face, weight) => {
    const wantedFace: FaceName = face === "italic" ? "italic400" : `${face}${weight}`;
    const found = opened.find((one) => (one.face === wantedFace || one.face === "accidentals") && one.letters.has(letter));
    return found?.font ?? null;
  };
}

/** The letters of some pages that none of our fonts has, each once, in the order they are met. A PDF shows their numbers instead. */
export async function lettersWithoutFont(pages: readonly PageDrawing[]): Promise<readonly string[]> {
  const fonts = await paperFontsFor(pages);
  const letters = new Set(wordsOf(pages).join(""));
  return [...letters].filter((letter) => fonts(letter, "serif", 400) === null && letter.trim() !== "");
}

const DIGITS: ReadonlyMap<string, number> = new Map(
  [..."ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/"].map((digit, value) => [digit, value]),
);

/** Bytes from base64 (RFC 4648, section 4). */
function bytesOfBase64(text: string): Uint8Array {
  const bytes = new Uint8Array(Math.floor((text.replace(/=+$/, "").length * 3) / 4));
  let [bits, held, place] = [0, 0, 0];
  for (const digit of text) {
    const value = DIGITS.get(digit);
    if (value === undefined) break;
    bits = ((bits << 6) | value) & 0xffff;
    held += 6;
    if (held < 8) continue;
    held -= 8;
    bytes[place] = (bits >> held) & 0xff;
    place += 1;
  }
  return bytes;
}
