import { css, html, LitElement, nothing } from "lit";
import type { SketchId, SketchSummary } from "../session/sketch-store.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { EXAMPLES } from "./examples.ts";

/** Which sketch to open, by what it is. */
export type SketchAskedEvent = CustomEvent<
  | { readonly kind: "stored"; readonly id: SketchId }
  | { readonly kind: "example"; readonly name: string }
  | { readonly kind: "new" }
  | { readonly kind: "file"; readonly file: File }
>;

/**
 * The sketches on this device, the examples, and the ways in and out: a page to read, over the app.
 *
 * @fires sketch-asked
 * @fires save-asked
 * @fires sketch-removed with `{ id }`
 */
export class SketchShelf extends LitElement {
  static override properties = {
    sketches: { attribute: false },
    current: { type: String },
    trouble: { type: String },
    kept: { type: Boolean },
    putBack: { state: true },
  };

  /** The one changed last first. */
  declare sketches: readonly SketchSummary[];
  declare current: SketchId;
  /** Why the last file was not opened, or an empty text. */
  declare trouble: string;
  /** Whether this browser keeps sketches at all. */
  declare kept: boolean;
  /** Puts the sketch that was removed last back, or null. */
  declare private putBack: (() => Promise<void>) | null;

  constructor() {
    super();
    this.sketches = [];
    this.current = "";
    this.trouble = "";
    this.kept = true;
    this.putBack = null;
  }

  static override styles = [
    controls,
    focusRing,
    css`
      dialog {
        inline-size: min(720px, 100vw - 32px);
        max-block-size: calc(100dvh - 32px);
        padding: 24px;
        border: 0;
        border-radius: var(--r-sheet);
        background: var(--paper);
        color: var(--ink);
        box-shadow: var(--shadow-lift);
        font: 400 15px/24px var(--serif);
        overflow: auto;
      }
      dialog::backdrop {
        background: color-mix(in srgb, var(--ground) 70%, transparent);
      }
      header {
        display: flex;
        justify-content: space-between;
        align-items: baseline;
        gap: 16px;
        margin-block-end: 16px;
      }
      h2 {
        font: 600 22px/32px var(--serif);
      }
      h3 {
        font: 600 15px/24px var(--serif);
        margin-block: 24px 4px;
      }
      ul {
        list-style: none;
        border-block-start: 1px solid var(--rule);
      }
      li {
        display: flex;
        align-items: baseline;
        gap: 16px;
        padding-block: 6px;
        border-block-end: 1px solid var(--rule-soft);
      }
      li .name {
        flex: 1;
        font: 600 15px/24px var(--serif);
        color: var(--ink);
        background: none;
        border: 0;
        padding: 0;
        text-align: start;
        cursor: pointer;
        min-block-size: 28px;
      }
      li .name:hover {
        color: var(--steel);
      }
      li .about {
        display: block;
        font: 400 15px/24px var(--serif);
        color: var(--ink-2);
      }
      li .name[aria-current="true"] {
        color: var(--steel);
      }
      .acts {
        display: flex;
        flex-wrap: wrap;
        gap: 16px;
        align-items: center;
      }
      .trouble {
        margin-block-start: 16px;
      }
      @media (max-width: 599px) {
        dialog {
          inline-size: 100vw;
          max-inline-size: none;
          max-block-size: none;
          block-size: 100dvh;
          margin: 0;
          padding: 16px;
        }
        li .name {
          min-block-size: 44px;
        }
      }
    `,
  ];

  override render() {
    return html`<dialog aria-labelledby="head" @close=${this.#closed}>
      <header>
        <h2 id="head">Sketches</h2>
        <button class="btn" type="button" @click=${this.hide}>Back to the sketch</button>
      </header>
      <div class="acts">
        <button class="btn main" type="button" @click=${() => this.#ask({ kind: "new" })}>New sketch</button>
        <button class="link" type="button" @click=${this.#pick}>Open a file</button>
        <button class="link" type="button" @click=${() => this.dispatchEvent(new CustomEvent("save-asked"))}>Save to a file</button>
        <input type="file" accept=".json,application/json" hidden @change=${this.#picked} />
      </div>
      <p class="trouble" role="alert">${this.trouble}</p>
      <h3>On this device</h3>
      ${
        this.kept
          ? html`<ul>
            ${this.sketches.map((sketch) => this.#row(sketch))}
          </ul>`
          : html`<p>This browser keeps nothing between visits. Save to a file before you leave.</p>`
      }
      <p role="status">${this.putBack === null ? nothing : html`The sketch is removed. <button class="link" type="button" @click=${this.#undo}>Undo</button>`}</p>
      <h3>Examples, to open as a copy</h3>
      <ul>
        ${EXAMPLES.map(
          (example) => html`<li>
            <button class="name" type="button" @click=${() => this.#ask({ kind: "example", name: example.name })}>
              ${example.title}<span class="about">${example.about}</span>
            </button>
          </li>`,
        )}
      </ul>
    </dialog>`;
  }

  #row(sketch: SketchSummary) {
    const current = sketch.id === this.current;
    const title = sketch.title === "" ? "Untitled" : sketch.title;
    return html`<li>
      <button class="name" type="button" aria-current=${current ? "true" : "false"} @click=${() => this.#ask({ kind: "stored", id: sketch.id })}>${title}</button>
      <span class="cap">${sketch.bars} ${sketch.bars === 1 ? "bar" : "bars"}, ${new Date(sketch.changed).toLocaleString([], { dateStyle: "medium", timeStyle: "short" })}</span>
      ${current ? html`<span class="cap">open</span>` : html`<button class="link" type="button" aria-label=${`Remove ${title}`} @click=${() => this.#remove(sketch.id)}>Remove</button>`}
    </li>`;
  }

  /** Shows the shelf. */
  show(): void {
    this.trouble = "";
    this.#dialog.showModal();
  }

  /** Offers to put back what was removed, until the shelf is closed. */
  offerUndo(putBack: () => Promise<void>): void {
    this.putBack = putBack;
  }

  readonly #undo = async (): Promise<void> => {
    await this.putBack?.();
    this.putBack = null;
  };

  /** Closes it; the focus goes back to where it was. */
  readonly hide = (): void => {
    this.#dialog.close();
  };

  get #dialog(): HTMLDialogElement {
    return this.renderRoot.querySelector("dialog") as HTMLDialogElement;
  }

  #ask(detail: SketchAskedEvent["detail"]): void {
    this.dispatchEvent(new CustomEvent("sketch-asked", { detail }) satisfies SketchAskedEvent);
  }

  #remove(id: SketchId): void {
    this.dispatchEvent(new CustomEvent("sketch-removed", { detail: { id } }));
  }

  readonly #pick = (): void => {
    (this.renderRoot.querySelector("input[type=file]") as HTMLInputElement).click();
  };

  readonly #picked = (event: Event): void => {
    const input = event.target as HTMLInputElement;
    const file = input.files?.[0];
    input.value = "";
    if (file !== undefined) this.#ask({ kind: "file", file });
  };

  readonly #closed = (): void => {
    this.trouble = "";
    this.putBack = null;
  };
}

customElements.define("sketch-shelf", SketchShelf);

declare global {
  interface HTMLElementTagNameMap {
    "sketch-shelf": SketchShelf;
  }
}
