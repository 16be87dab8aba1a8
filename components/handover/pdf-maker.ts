import type { PageDrawing } from "../../src/engraving/page-drawing.ts";
import type { AboutPdf } from "../../src/exchange/pdf.ts";
import { trustedScriptUrl } from "../shared/trusted-urls.ts";
import type { PdfNews, PdfWanted } from "./pdf-messages.ts";
import workerAddress from "./pdf-worker.ts?worker&url";

/** A PDF file that was made. */
export interface MadePdf {
  readonly bytes: Uint8Array<ArrayBuffer>;
  /** Letters that no font has, each once. */
  readonly without: readonly string[];
}

/** Has PDF files made in a worker, which is started by the first and kept for the next. */
export class PdfMaker {
  #worker: Worker | null = null;
  #stopped: (() => void) | null = null;

  /**
   * Makes one file; the one before must be done.
   * @param onPage hears how many pages are done
   * @returns null where it was stopped
   * @throws Error when it cannot be made, or the worker cannot be loaded
   */
  make(pages: readonly PageDrawing[], about: AboutPdf, onPage: (done: number) => void): Promise<MadePdf | null> {
    this.#worker ??= new Worker(trustedScriptUrl(workerAddress), { type: "module" });
    const worker = this.#worker;
    return new Promise<MadePdf | null>((resolve, reject) => {
      this.#stopped = () => resolve(null);
      worker.onmessage = ({ data: news }: MessageEvent<PdfNews>) => {
        if (news.kind === "page") onPage(news.done);
        else if (news.kind === "made") resolve(news);
        else reject(new Error(news.message));
      };
      worker.onerror = (event) => {
        this.stop();
        reject(new Error(event.message || "The part of the app that makes PDF files could not be loaded."));
      };
      worker.postMessage({ pages, about } satisfies PdfWanted);
    });
  }

  /** Stops what is being made, and lets the worker go. */
  stop(): void {
    this.#worker?.terminate();
    this.#worker = null;
    this.#stopped?.();
    this.#stopped = null;
  }
}
