import { css, html, LitElement, nothing } from "lit";
import { plainFileName } from "../../src/exchange/file-names.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { type PlaySettings, scheduleOptions, USUAL_SETTINGS } from "../../src/playback/play-settings.ts";
import { type Recording, recordingFacts, recordingsOf } from "../../src/playback/recordings.ts";
import type { Score } from "../../src/score/score.ts";
import { busyLine } from "../shared/busy-styles.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { chosenFile, type SoundSink } from "./sound-sink.ts";

/** A file is made; whoever listens hands it out. */
export type SoundMadeEvent = CustomEvent<{ readonly name: string; readonly file: Blob }>;

/** Under this nothing is said to be going on, in milliseconds. */
const UNNOTICED = 300;

/** What is being made. */
interface Busy {
  readonly words: string;
  readonly done: number;
  readonly stop: AbortController;
}

/**
 * The sketch as sound files: the mix, what is played along to, and every voice by itself. They are made one at a time, a piece at a time.
 *
 * @fires sound-made
 */
export class SoundFiles extends LitElement {
  static override properties = {
    score: { attribute: false },
    blend: { attribute: false },
    settings: { attribute: false },
    busy: { state: true },
    said: { state: true },
  };

  declare score: Score;
  declare blend: Blend;
  declare settings: PlaySettings;
  declare private busy: Busy | null;
  declare private said: string;

  constructor() {
    super();
    this.blend = USUAL_BLEND;
    this.settings = USUAL_SETTINGS;
    this.busy = null;
    this.said = "";
  }

  static override styles = [
    controls,
    focusRing,
    busyLine,
    css`
      :host {
        display: block;
        font: 400 15px/24px var(--serif);
      }
      ul {
        list-style: none;
        margin: 0;
        padding: 0;
      }
      li {
        display: flex;
        flex-wrap: wrap;
        gap: 0 16px;
        align-items: baseline;
        padding-block: 4px;
      }
      li + li {
        border-block-start: 1px solid var(--rule-soft);
      }
      b {
        font-weight: 600;
      }
      .says {
        color: var(--ink-2);
        flex: 1 1 24ch;
      }
      summary {
        cursor: pointer;
        font-weight: 600;
      }
      .busy {
        padding-block: 8px;
      }
      .said:empty {
        display: none;
      }
      .lesser {
        font: 400 13px/20px var(--sans);
        color: var(--ink-2);
        max-inline-size: 72ch;
      }
      @media (max-width: 599px), (pointer: coarse) {
        li button,
        summary {
          line-height: 44px;
        }
      }
    `,
  ];

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.busy?.stop.abort();
  }

  override render() {
    const recordings = recordingsOf(this.score, this.blend);
    const stems = recordings.filter(({ kind }) => kind === "stem");
    return html`<details>
        <summary>As sound</summary>
        <p class="lesser">48 kHz, 24 bits. All begin a bar before the music, so they lie under one another on any desk. Pipes are loud: start headphones low.</p>
        <ul>${recordings.map((recording) => this.#row(recording))}</ul>
        ${stems.length > 1 ? html`<button class="link" type="button" ?disabled=${this.busy !== null} @click=${() => this.#all(stems)}>All ${stems.length} voices, one file each</button>` : nothing}
      </details>
      ${this.busy === null ? nothing : this.#progress(this.busy)}
      <p class="said" role="status">${this.said}</p>`;
  }

  #row(recording: Recording) {
    return html`<li><b>${recording.name}</b><span class="says">${recording.says}</span>
      <button class="link" type="button" ?disabled=${this.busy !== null} aria-label="${recording.name} as WAV" @click=${() => this.#wav(recording)}>WAV</button>
      ${
        recording.kind === "stem"
          ? nothing
          : html`<button class="link" type="button" ?disabled=${this.busy !== null} aria-label="${recording.name} as a small file" @click=${() => this.#small(recording)}>Small file</button>`
      }</li>`;
  }

  #progress({ words, done, stop }: Busy) {
    return html`<div class="busy"><span id="busy">${words}</span>
      <button class="link" type="button" @click=${() => stop.abort()}>Stop</button>
      <progress aria-labelledby="busy" max="1" .value=${done}></progress></div>`;
  }

  /** Straight to a file of the user's where the browser can; else handed out when it is whole. */
  async #wav(recording: Recording): Promise<void> {
    const name = `${this.#stem(recording)}.wav`;
    let sink: SoundSink | null = null;
    try {
      sink = await chosenFile(name, "audio/wav");
    } catch (error) {
      // The user thought better of it. Where no file may be chosen it is handed out as others are.
      if (error instanceof DOMException && error.name === "AbortError") return;
    }
    await this.#work(recording.name, async (task) => {
      const { makeWav, sinkFor } = await import("./sound-file-maker.ts");
      const file = await makeWav({ ...task, recording }, sink ?? (await sinkFor()));
      if (file !== null) this.#made(name, file);
      return `${recording.name}: made.`;
    });
  }

  async #small(recording: Recording): Promise<void> {
    await this.#work(recording.name, async (task) => {
      const { makeSmall } = await import("./sound-file-maker.ts");
      const made = await makeSmall({ ...task, recording });
      if (!made.ok) return made.reason;
      this.#made(`${this.#stem(recording)}.${made.extension}`, made.file);
      return `${recording.name}: made.`;
    });
  }

  async #all(stems: readonly Recording[]): Promise<void> {
    await this.#work("every voice", async (task) => {
      const { makeWav, sinkFor } = await import("./sound-file-maker.ts");
      for (const [index, recording] of stems.entries()) {
        const progress = (done: number) => task.progress((index + done) / stems.length);
        const file = await makeWav({ ...task, progress, recording }, await sinkFor());
        if (file !== null) this.#made(`${this.#stem(recording)}.wav`, file);
      }
      return `${stems.length} files made.`;
    });
  }

  async #work(
    name: string,
    work: (task: {
      score: Score;
      manner: ReturnType<typeof scheduleOptions>;
      signal: AbortSignal;
      progress: (done: number) => void;
    }) => Promise<string>,
  ): Promise<void> {
    const stop = new AbortController();
    const words = `Recording ${name}`;
    const began = performance.now();
    this.said = "";
    const show = (done: number) => {
      if (performance.now() - began > UNNOTICED) this.busy = { words, done, stop };
    };
    const timer = setTimeout(() => show(0), UNNOTICED);
    try {
      this.said = await work({ score: this.score, manner: scheduleOptions(this.settings), signal: stop.signal, progress: show });
    } catch (error) {
      this.said = stop.signal.aborted
        ? `${words} was stopped. Nothing was kept.`
        : `${words} did not work. ${error instanceof Error ? error.message : String(error)}`;
    } finally {
      clearTimeout(timer);
      this.busy = null;
    }
  }

  /** Title and facts are each cut to what systems take, so that a long title hides none of the rest. */
  #stem(recording: Recording): string {
    return `${plainFileName(this.score.title)}, ${plainFileName(recordingFacts(this.score, recording))}`;
  }

  #made(name: string, file: Blob): void {
    this.dispatchEvent(new CustomEvent("sound-made", { detail: { name, file } }) satisfies SoundMadeEvent);
  }
}

customElements.define("sound-files", SoundFiles);

declare global {
  interface HTMLElementTagNameMap {
    "sound-files": SoundFiles;
  }
}
