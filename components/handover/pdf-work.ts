import type { Handout } from "../../src/exchange/handouts.ts";
import type { Score } from "../../src/score/score.ts";
import { PdfMaker } from "./pdf-maker.ts";

/** Under this nothing is said to be going on, in milliseconds. */
const UNNOTICED = 300;

/** Work that takes long enough to be shown. */
export interface Busy {
  /** What is being made, in words. */
  readonly words: string;
  /** From 0 to 1. */
  readonly share: number;
}

/** Who hears how the making of PDF files goes on. */
export interface PdfWorkNews {
  /** Null when nothing is going on, or not long enough to be worth a word. */
  busy(busy: Busy | null): void;
  /** A file is ready to be handed out. */
  made(name: string, bytes: Uint8Array<ArrayBuffer>): void;
}

/** How a piece of work ended; `without` are the letters that no font has. */
export type PdfWorkEnd =
  | { readonly kind: "done"; readonly without: readonly string[] }
  | { readonly kind: "stopped"; readonly made: number }
  | { readonly kind: "failed"; readonly message: string };

/** Makes PDF files of handouts one after the other, says how far it is, and can be stopped. */
export class PdfWork {
  readonly #news: PdfWorkNews;
  readonly #maker = new PdfMaker();
  #runs = 0;
  /** The number of the piece of work that is going on; null when there is none. */
  #running: number | null = null;

  constructor(news: PdfWorkNews) {
    this.#news = news;
  }

  /** Whether files are being made. */
  get isRunning(): boolean {
    return this.#running !== null;
  }

  /** Makes the files. What was being made before is stopped. */
  async make(score: Score, handouts: readonly Handout[]): Promise<PdfWorkEnd> {
    this.stop();
    const began = performance.now();
    this.#runs += 1;
    const run = this.#runs;
    this.#running = run;
    const without = new Set<string>();
    let shown: Busy = { words: "Making the PDF", share: 0 };
    const show = (busy: Busy): void => {
      shown = busy;
      if (this.#running === run && performance.now() - began >= UNNOTICED) this.#news.busy(shown);
    };
    const timer = setTimeout(() => show(shown), UNNOTICED);
    try {
      for (const [index, { label, fileName, pages }] of handouts.entries()) {
        const words = handouts.length === 1 ? `Making ${label}` : `Making ${label}, ${index + 1} of ${handouts.length}`;
        const shareOf = (done: number): number => (index + done / (pages.length + 1)) / handouts.length;
        show({ words, share: shareOf(0) });
        const about = { title: score.title, player: label, revision: score.revision };
        const made = await this.#maker.make(pages, about, (done) => show({ words, share: shareOf(done) }));
        if (made === null) return { kind: "stopped", made: index };
        for (const letter of made.without) without.add(letter);
        this.#news.made(`${fileName}.pdf`, made.bytes);
      }
      return { kind: "done", without: [...without] };
    } catch (error) {
      return { kind: "failed", message: error instanceof Error ? error.message : String(error) };
    } finally {
      clearTimeout(timer);
      if (this.#running === run) {
        this.#running = null;
        this.#news.busy(null);
      }
    }
  }

  /** Stops what is being made; what is made already stays handed out. */
  stop(): void {
    if (!this.isRunning) return;
    this.#running = null;
    this.#maker.stop();
    this.#news.busy(null);
  }

  /** Lets the worker go. */
  close(): void {
    this.#running = null;
    this.#maker.stop();
  }
}
