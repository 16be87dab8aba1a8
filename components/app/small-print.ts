import { css, html, LitElement } from "lit";
import type { SaveState } from "../session/autosave.ts";
import { controls, focusRing } from "../shared/styles.ts";
import { isTheme, THEMES, type Theme } from "./theme.ts";

/** Another theme was picked. */
export type ThemeChosenEvent = CustomEvent<{ readonly theme: Theme }>;

/**
 * The line at the very foot: how the sketch stands with the device, its revision, day or lamplight, and what the law has to say.
 * An element of its own, since "saving" and "saved" come with every edit and nothing else need be drawn again for them.
 *
 * @fires theme-chosen
 */
export class SmallPrint extends LitElement {
  static override properties = {
    saveState: { attribute: false },
    keeps: { type: Boolean },
    revision: { type: Number },
    theme: { type: String },
  };

  declare saveState: SaveState;
  /** Whether this browser keeps sketches between visits. */
  declare keeps: boolean;
  declare revision: number;
  declare theme: Theme;

  constructor() {
    super();
    this.saveState = { kind: "saved" };
    this.keeps = true;
    this.revision = 0;
    this.theme = "device";
  }

  static override styles = [
    controls,
    focusRing,
    css`
      p {
        display: flex;
        flex-wrap: wrap;
        align-items: center;
        gap: 4px 24px;
        padding: 0 24px 12px;
        font: 400 13px/20px var(--sans);
        color: var(--ink-3);
      }
      select {
        font: 400 13px/20px var(--sans);
        padding: 1px 4px;
      }
      .failed {
        color: var(--ink);
        font-weight: 600;
      }
      @media (max-width: 599px) {
        p {
          padding-inline: 16px;
        }
      }
    `,
  ];

  override render() {
    const { kind } = this.saveState;
    return html`<p>
      <span data-save=${kind} class=${kind} role=${kind === "failed" ? "alert" : "none"}>${this.#words()}</span>
      <span>Revision ${this.revision}</span>
      <label>Seen <select @change=${this.#chosen}>
        ${THEMES.map(({ theme, words }) => html`<option value=${theme} ?selected=${theme === this.theme}>${words}</option>`)}
      </select></label>
      <span>Performing or recording a cover needs permission or a licence under local law. Local noise-at-work rules come first.</span>
    </p>`;
  }

  #words(): string {
    if (!this.keeps) return "This browser keeps nothing between visits. Save to a file.";
    if (this.saveState.kind === "failed") return this.saveState.reason;
    return this.saveState.kind === "saving" ? "Saving on this device" : "Saved on this device";
  }

  readonly #chosen = (event: Event): void => {
    const theme = (event.target as HTMLSelectElement).value;
    if (isTheme(theme)) this.dispatchEvent(new CustomEvent("theme-chosen", { detail: { theme } }) satisfies ThemeChosenEvent);
  };
}

customElements.define("small-print", SmallPrint);

declare global {
  interface HTMLElementTagNameMap {
    "small-print": SmallPrint;
  }
}
