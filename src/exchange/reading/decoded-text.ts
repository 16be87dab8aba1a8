import { ReadError } from "../../units/read-error.ts";

/**
 * The text in a file's bytes: UTF-8 or UTF-16 by its byte-order mark, else what `declared` says, else UTF-8, else, where that cannot be,
 * latin-1 (in which every byte is a letter). Marks are taken off and line ends are made `\n`.
 * @param declared the encoding an XML declaration names; null where there is none
 * @throws ReadError for an encoding no engine knows, and for text with NUL in it, which is no text
 */
export function decodedText(bytes: Uint8Array, declared: string | null = null): string {
  const text = decode(bytes, encodingByMark(bytes) ?? declared).replace(/^\uFEFF/, "");
  const nul = text.indexOf("\0");
  if (nul >= 0) throw new ReadError({ where: `character ${nul + 1}`, expected: "text", found: "a NUL" });
  return text.replace(/\r\n?/g, "\n");
}

/** The encoding that an XML declaration names, if the file begins with one that can be read as ASCII. */
export function declaredEncoding(bytes: Uint8Array): string | null {
  const head = new TextDecoder("latin1").decode(bytes.subarray(0, 200));
  return /^(?:\u00EF\u00BB\u00BF)?\s*<\?xml[^>]*?encoding\s*=\s*["']([A-Za-z0-9._:-]+)["']/.exec(head)?.[1] ?? null;
}

function encodingByMark(bytes: Uint8Array): string | null {
  const [a, b, c] = bytes;
  if (a === 0xef && b === 0xbb && c === 0xbf) return "utf-8";
  if (a === 0xff && b === 0xfe) return "utf-16le";
  if (a === 0xfe && b === 0xff) return "utf-16be";
  // A file of UTF-16 without its mark begins with a letter and a zero, or the other way round.
  if (a !== undefined && a > 0 && b === 0) return "utf-16le";
  if (a === 0 && b !== undefined && b > 0) return "utf-16be";
  return null;
}

function decode(bytes: Uint8Array, encoding: string | null): string {
  if (encoding !== null && !/^utf-?8$/i.test(encoding)) {
    let decoder: TextDecoder;
    try {
      decoder = new TextDecoder(encoding);
    } catch {
      throw new ReadError({ where: "encoding", expected: "one that is known, such as UTF-8", found: JSON.stringify(encoding) });
    }
    return decoder.decode(bytes);
  }
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    return new TextDecoder("latin1").decode(bytes);
  }
}
