import type { PageDrawing } from "../../src/engraving/page-drawing.ts";
import type { AboutPdf } from "../../src/exchange/pdf.ts";

/** What the PDF worker is asked: one file. */
export interface PdfWanted {
  readonly pages: readonly PageDrawing[];
  readonly about: AboutPdf;
}

/** What the PDF worker says: after each page how many are done, then the file with the letters that no font has, or why there is none. */
export type PdfNews =
  | { readonly kind: "page"; readonly done: number }
  | { readonly kind: "made"; readonly bytes: Uint8Array<ArrayBuffer>; readonly without: readonly string[] }
  | { readonly kind: "failed"; readonly message: string };
