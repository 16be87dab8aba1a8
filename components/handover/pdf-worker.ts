import { lettersWithoutFont } from "../../src/exchange/paper-fonts.ts";
import { pdfOf } from "../../src/exchange/pdf.ts";
import type { PdfNews, PdfWanted } from "./pdf-messages.ts";

/*
 * Makes PDF files off the page's thread, one at a time in the order they are asked for. It gets drawings, not scores, so that it needs no
 * engraver of its own. To stop it, end it.
 */

/** A worker's own scope, as far as it is used; the compiler takes this file for part of the page. */
interface WorkerScope {
  postMessage(news: PdfNews, transfer?: readonly Transferable[]): void;
  addEventListener(type: "message", hear: (event: MessageEvent<PdfWanted>) => void): void;
}

const scope = globalThis as unknown as WorkerScope;

scope.addEventListener("message", ({ data }) => {
  void make(data);
});

async function make({ pages, about }: PdfWanted): Promise<void> {
  try {
    const made = await pdfOf(pages, about, (done) => scope.postMessage({ kind: "page", done }));
    const bytes = new Uint8Array(made);
    scope.postMessage({ kind: "made", bytes, without: await lettersWithoutFont(pages) }, [bytes.buffer]);
  } catch (error) {
    scope.postMessage({ kind: "failed", message: String(error) });
  }
}
