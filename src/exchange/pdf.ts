/// <reference path="./pdfkit.d.ts" />
import PDFDocument from "pdfkit";
import type { PageDrawing } from "../engraving/page-drawing.ts";
import { paperFontsFor } from "./paper-fonts.ts";
import { PdfPainter } from "./pdf-painter.ts";

/** What a PDF file says of itself, beside its pages. */
export interface AboutPdf {
  readonly title: string;
  /** Whose part it is, or what else the pages are. */
  readonly player: string;
  readonly revision: number;
}

/**
 * Pages as a PDF file: vector ink, words that can be searched and copied, every font in the file and cut to the letters used. The same
 * pages give the same bytes wherever it runs.
 * @param onPage hears how many pages are done, after each
 */
export async function pdfOf(
  pages: readonly PageDrawing[],
  about: AboutPdf,
  onPage: (done: number) => void = () => {},
): Promise<Uint8Array> {
  const fonts = await paperFontsFor(pages);
  const document = new PaperDocument(about);
  const bytes = bytesOf(document);
  const painter = new PdfPainter(document, fonts);
  for (const [index, page] of pages.entries()) {
    painter.paint(page);
    onPage(index + 1);
  }
  document.end();
  return bytes;
}

/** A document in which nothing depends on when it was made. */
class PaperDocument extends PDFDocument {
  constructor({ title, player, revision }: AboutPdf) {
    super({
      autoFirstPage: false,
      font: null,
      margin: 0,
      pdfVersion: "1.7",
      displayTitle: true,
      info: {
        Title: `${title.trim() === "" ? "Untitled" : title} - ${player}`,
        Subject: `${player}, revision ${revision}`,
        Keywords: `revision ${revision}`,
        Creator: "Ninefold",
      },
    });
    delete this.info.CreationDate;
    this._id = fingerprint(JSON.stringify(this.info));
  }

  /** No second account of the file in XML: it would need the time of day, and takes titles as markup. */
  protected override endMetadata(): void {}
}

/** Sixteen bytes that differ where the text does (FNV-1a, four times from other beginnings). */
function fingerprint(text: string): Uint8Array {
  const bytes = new TextEncoder().encode(text);
  const words = [0, 1, 2, 3].map((seed) => {
    let hash = (0x811c9dc5 ^ seed) >>> 0;
    for (const byte of bytes) hash = Math.imul(hash ^ byte, 0x01000193) >>> 0;
    return hash;
  });
  return Uint8Array.from(words.flatMap((word) => [word >>> 24, (word >>> 16) & 0xff, (word >>> 8) & 0xff, word & 0xff]));
}

function bytesOf(document: PDFDocument): Promise<Uint8Array> {
  return new Promise((resolve, reject) => {
    const chunks: Uint8Array[] = [];
    document.on("data", (chunk) => chunks.push(chunk));
    document.on("error", reject);
    document.on("end", () => {
      const bytes = new Uint8Array(chunks.reduce((sum, { length }) => sum + length, 0));
      let place = 0;
      for (const chunk of chunks) {
        bytes.set(chunk, place);
        place += chunk.length;
      }
      resolve(bytes);
    });
  });
}
