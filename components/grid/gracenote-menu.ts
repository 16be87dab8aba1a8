import { html, LitElement, nothing } from "lit";
import { notesBefore } from "../../src/arranging/grace-place.ts";
import type { GracenoteChoice, GracenoteOffer } from "../../src/arranging/gracenote-offers.ts";
import { spelledGroup } from "../../src/arranging/spelled-group.ts";
import type { PlainNote } from "../../src/pipes/chanter-note.ts";
import { lettersOfGracenotes } from "../../src/pipes/gracenote-letters.ts";
import { noteName, spokenNote } from "../../src/pipes/note-names.ts";
import { controls, focusRing, visuallyHidden } from "../shared/styles.ts";
import { besideNote, type NoteBox } from "./beside-note.ts";
import { gracenoteKey, NUMBERED } from "./gracenote-keys.ts";
import { gracenoteMenuStyles } from "./gracenote-menu-styles.ts";
import { drawPicture } from "./gracenote-picture.ts";
import { GroupHearing, RESTS, RESTS_IN_TYPING } from "./group-hearing.ts";
import { groupOf, pictureOf, sentence, shownSpelling } from "./offered-group.ts";

/** Windows in which the menu is a sheet at the foot, as its styles say. */
const SHEET = "(max-width: 599px), (max-height: 479px)";

/** Letters typed within so many milliseconds spell one name. */
const TYPED_TOGETHER = 900;

/**
 * The choice of gracenotes for a note: exactly what fits there, drawn and heard, and a field for anything else the fingers can do. Nothing
 * changes until something is taken; Escape leaves the note as it was.
 *
 * @fires gracenotes-chosen what was taken; no gracenotes at all to take them away
 * @fires menu-left by Escape
 * @fires gracenotes-touched these are pointed at: let them be heard
 * @fires gracenotes-released they are not any more
 */
export class GracenoteMenu extends LitElement {
  static override properties = {
    choice: { state: true },
    now: { state: true },
    here: { state: true },
    spelling: { state: true },
    byTouch: { state: true },
  };

  /** The note and what fits on it; null while the menu is closed. */
  declare private choice: GracenoteChoice | null;
  declare private now: readonly PlainNote[];
  /** The offer that keys or finger are on; -1 before a finger has touched one. */
  declare private here: number;
  declare private spelling: string;
  /** Whether the device is touched: what is taken then has a button of its own, since a finger cannot hover. */
  declare private byTouch: boolean;
  #typed = "";
  #typedAt = 0;
  /** Whether the last thing that touched the list was a finger. */
  #finger = false;
  readonly #hearing = new GroupHearing((group) =>
    group === null ? this.#tell("gracenotes-released", {}) : this.#tell("gracenotes-touched", { group }),
  );

  static override styles = [controls, focusRing, visuallyHidden, gracenoteMenuStyles];

  constructor() {
    super();
    this.choice = null;
    this.now = [];
    this.here = 0;
    this.spelling = "";
    this.byTouch = false;
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    this.#hearing.leave();
  }

  override render() {
    const { choice } = this;
    return html`<div popover="auto" role="dialog" aria-label="Gracenotes" @keydown=${this.#key} @toggle=${this.#toggled} @focusout=${this.#left}>
      ${choice === null ? nothing : this.#sheet(choice)}
    </div>`;
  }

  /** Opens the menu beside a note, which stays in sight; on a phone at the foot. */
  async show(choice: GracenoteChoice, note: NoteBox): Promise<void> {
    const now = choice.place.note.gracenotes;
    const found = choice.offers.findIndex(({ spelling }) => spelling === lettersOfGracenotes(now));
    this.choice = choice;
    this.now = now;
    this.byTouch = matchMedia("(pointer: coarse)").matches;
    this.here = this.byTouch ? found : Math.max(0, found);
    this.spelling = found === -1 ? lettersOfGracenotes(now) : "";
    await this.updateComplete;
    const panel = this.#panel;
    panel.showPopover();
    const { left, top } = besideNote(note, panel.getBoundingClientRect(), { width: innerWidth, height: innerHeight });
    const isSheet = matchMedia(SHEET).matches;
    panel.style.left = isSheet ? "" : `${left}px`;
    panel.style.top = isSheet ? "" : `${top}px`;
    this.#focusHere();
  }

  get #panel(): HTMLElement {
    return this.renderRoot.querySelector("[popover]") as HTMLElement;
  }

  #sheet(choice: GracenoteChoice) {
    const { place, offers, whyNone } = choice;
    const after = notesBefore(place).map((note) => (note === null ? "silence" : noteName(note)));
    return html`<div class="head">
        <span>Gracenotes on <b>${noteName(place.note.note)}</b>, after ${after.join(" or ")}</span>
      </div>
      ${
        whyNone === null
          ? html`<div class="list" role="listbox" aria-label=${`What fits on ${spokenNote(place.note.note)}`} @pointerleave=${this.#hearing.leave} @pointerdown=${this.#pressed}>
              ${offers.map((offer, index) => this.#option(choice, offer, index))}
            </div>`
          : html`<p class="none">${whyNone}</p>`
      }
      ${this.#foot(choice)}`;
  }

  #option(choice: GracenoteChoice, offer: GracenoteOffer, index: number) {
    const isNow = offer.spelling === lettersOfGracenotes(this.now);
    const isHere = index === this.here;
    const stop = isHere || (this.here === -1 && index === 0);
    const mark = offer.mark === "from-memory" ? "not checked in print" : "";
    return html`<div
      role="option"
      class=${isHere ? "here" : ""}
      tabindex=${stop ? 0 : -1}
      aria-selected=${isNow ? "true" : "false"}
      data-index=${index}
      title=${offer.source}
      @pointermove=${this.#moved}
      @focus=${this.#focused}
      @click=${this.#clicked}
    >
      <span class="figure" aria-hidden="true">${index < NUMBERED ? index + 1 : ""}</span>
      ${drawPicture(pictureOf(choice, offer))}
      <span class="words"
        ><span class="name">${sentence(offer.name)}</span><span class="heard">, </span><span class="letters">${shownSpelling(offer, choice.place.note.note)}</span></span
      ><span class="mark">${mark === "" ? nothing : html`<span class="heard">, </span>${mark}`}${isNow ? html`<span class="heard">, </span><span class="now">there now</span>` : nothing}</span>
    </div>`;
  }

  #foot(choice: GracenoteChoice) {
    const { spelling } = this;
    const judged = spelling.trim() === "" ? null : spelledGroup(choice, spelling);
    const offer = judged?.ok ? judged.value.offer : null;
    const words =
      judged === null
        ? hintFor(choice, this.byTouch)
        : judged.ok
          ? `${sentence(judged.value.offer.name)}: ${shownSpelling(judged.value.offer, choice.place.note.note)}. ${judged.value.caution}`
          : judged.reason;
    return html`<form class="foot" novalidate @submit=${this.#spelled}>
      <label class="field">
        <span>Or spell it: G A B c d e f g a, or names</span>
        <input
          type="text"
          name="spelling"
          autocomplete="off"
          autocapitalize="off"
          spellcheck="false"
          .value=${spelling}
          aria-invalid=${judged !== null && !judged.ok ? "true" : "false"}
          aria-describedby="answer"
          @input=${this.#typing}
        />
      </label>
      <button class="btn" type="submit" ?disabled=${offer === null}>Put it there</button>
      <div id="answer" class="answer" aria-live="polite">
        ${offer === null ? nothing : drawPicture(pictureOf(choice, offer))}<span>${words}</span>
      </div>
      ${this.now.length === 0 && !this.byTouch ? nothing : this.#acts(choice.offers[this.here])}
    </form>`;
  }

  /** What a finger takes, and taking all away. It stands there from the first, so that no row moves under the finger. */
  #acts(offer: GracenoteOffer | undefined) {
    const take = html`<button class="btn main" type="button" ?disabled=${offer === undefined} @click=${() => this.#take(offer)}>Take it</button>`;
    return html`<div class="acts">
      <button class="link" type="button" ?disabled=${this.now.length === 0} @click=${this.#takeAway}>Take all away</button>
      ${this.byTouch ? take : nothing}
    </div>`;
  }

  // ---- taking ----

  #take(offer: Pick<GracenoteOffer, "gracenotes" | "further"> | undefined): void {
    if (offer === undefined) return;
    this.#hearing.leave();
    this.#panel.hidePopover();
    this.dispatchEvent(new CustomEvent("gracenotes-chosen", { detail: { gracenotes: offer.gracenotes, further: offer.further } }));
  }

  readonly #takeAway = (): void => this.#take({ gracenotes: [], further: [] });

  readonly #spelled = (event: SubmitEvent): void => {
    event.preventDefault();
    const judged = this.choice === null ? null : spelledGroup(this.choice, this.spelling);
    if (judged?.ok) this.#take(judged.value.offer);
  };

  // ---- keys ----

  readonly #key = (event: KeyboardEvent): void => {
    const { choice } = this;
    const inField = event.target instanceof HTMLInputElement;
    if (choice === null || inField || event.target instanceof HTMLButtonElement || event.ctrlKey || event.metaKey || event.altKey) {
      // What is typed here is not the grid's.
      event.stopPropagation();
      if (event.key === "Escape") this.#leave(event);
      return;
    }
    if (event.key === "Escape") {
      this.#leave(event);
      return;
    }
    this.#finger = false;
    const typed = event.timeStamp - this.#typedAt < TYPED_TOGETHER ? this.#typed : "";
    const does = gracenoteKey(event.key, choice.offers, this.here, typed);
    if (does === null) return;
    event.preventDefault();
    event.stopPropagation();
    const isLetter = /^[a-z ]$/i.test(event.key);
    this.#typed = isLetter ? typed + event.key.toLowerCase() : "";
    this.#typedAt = event.timeStamp;
    switch (does.kind) {
      case "take":
        this.#take(choice.offers[does.index]);
        break;
      case "take-away":
        this.#takeAway();
        break;
      case "spell":
        this.renderRoot.querySelector("input")?.focus();
        break;
      case "go":
        this.here = does.index;
        void this.updateComplete.then(() => this.#focusHere());
        break;
    }
  };

  /** Nothing is taken, and the keys go back to where they were. */
  #leave(event: KeyboardEvent): void {
    event.preventDefault();
    event.stopPropagation();
    this.#panel.hidePopover();
    this.#tell("menu-left", {});
  }

  /** The focus goes to where the keys are, or to the field where nothing fits. */
  #focusHere(): void {
    const option = this.renderRoot.querySelector<HTMLElement>('[role="option"][tabindex="0"]');
    if (option === null) this.renderRoot.querySelector("input")?.focus();
    else option.focus();
    option?.scrollIntoView({ block: "nearest" });
  }

  // ---- hand ----

  readonly #pressed = (event: PointerEvent): void => {
    this.#finger = event.pointerType === "touch";
  };

  /** Moving, not being there: a menu that opens under a mouse at rest is for the keys. */
  readonly #moved = (event: PointerEvent): void => {
    if (event.pointerType !== "touch") this.#point(indexOf(event), RESTS);
  };

  readonly #focused = (event: FocusEvent): void => {
    const index = indexOf(event);
    // A finger brings the focus along with its press: what it does is for the press to say.
    if (this.here === -1 || this.#finger) return;
    this.here = index;
    this.#point(index, RESTS);
  };

  /** A mouse takes; a finger, which cannot hover, hears first and takes with the second touch. */
  readonly #clicked = (event: MouseEvent): void => {
    const index = indexOf(event);
    const offer = this.choice?.offers[index];
    if (this.#finger && index !== this.here) {
      this.here = index;
      this.#point(index, 0);
    } else this.#take(offer);
  };

  readonly #typing = (event: InputEvent): void => {
    const { choice } = this;
    this.spelling = (event.target as HTMLInputElement).value;
    const judged = choice === null ? null : spelledGroup(choice, this.spelling);
    if (choice === null || !judged?.ok) this.#hearing.leave();
    else this.#hearing.rest(`spelled ${judged.value.offer.spelling}`, groupOf(choice, judged.value.offer), RESTS_IN_TYPING);
  };

  readonly #left = (event: FocusEvent): void => {
    if (!(event.relatedTarget instanceof Node && this.#panel.contains(event.relatedTarget))) this.#hearing.leave();
  };

  // ---- hearing ----

  #point(index: number, rests: number): void {
    const { choice } = this;
    const offer = choice?.offers[index];
    if (choice !== null && offer !== undefined) this.#hearing.rest(`${index}`, groupOf(choice, offer), rests);
  }

  readonly #toggled = (event: ToggleEvent): void => {
    if (event.newState === "open") return;
    this.#hearing.leave();
    this.choice = null;
  };

  #tell(name: string, detail: object): void {
    this.dispatchEvent(new CustomEvent(name, { detail, bubbles: true, composed: true }));
  }
}

/** What stands under the field until something is written. */
function hintFor({ offers }: GracenoteChoice, byTouch: boolean): string {
  if (offers.length === 0) return "What you spell here is put there all the same, if the fingers can do it.";
  if (byTouch) return "Touch one to hear it, and again to take it.";
  return `Enter takes one, or its figure${offers.length > NUMBERED ? " where it has one" : ""}; letters find a name; 0 takes all away.`;
}

function indexOf(event: Event): number {
  return Number((event.currentTarget as HTMLElement).dataset.index);
}

customElements.define("gracenote-menu", GracenoteMenu);

declare global {
  interface HTMLElementTagNameMap {
    "gracenote-menu": GracenoteMenu;
  }
}
