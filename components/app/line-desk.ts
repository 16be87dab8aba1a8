import { html, nothing, type ReactiveController, type ReactiveControllerHost } from "lit";
import type { Stretch } from "../../src/arranging/stretch.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import type { Selection } from "../../src/editing/selection.ts";
import type { Address } from "../../src/score/address.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { type ProposedPlaces, proposedPlaces } from "../session/proposal.ts";
import type { Session } from "../session/session.ts";
import type { PlaceShownEvent, PlanChangedEvent } from "./line-sentence.ts";

type Host = ReactiveControllerHost & { readonly renderRoot: ParentNode };

/** Says something for a few seconds, with one offer. */
interface Teller {
  tell(words: string, offer: { readonly label: string; readonly act: () => void }): void;
}

/** What is being planned, and upon what. */
interface Planning {
  readonly session: Session;
  readonly line: LineId;
  readonly bar: number;
  /** What was chosen when it began, and is chosen again when it is over. */
  readonly before: Selection;
  readonly forget: () => void;
}

/**
 * Joins the session to the sentence in which many notes of a line are changed at once: what the sentence plans is proposed, seen and heard,
 * until it is kept or left. The sentence and the rules behind it are fetched when they are first asked for.
 */
export class LineDesk implements ReactiveController {
  readonly #host: Host;
  readonly #reveal: (address: Address) => void;
  readonly #teller: Teller;
  #planning: Planning | null = null;
  #chosen: Stretch | null = null;
  /** Why what is planned cannot be done, or an empty text. */
  #refusal = "";
  /** What is planned, in words. */
  #words = "";

  /**
   * @param reveal brings a place into view
   * @param teller tells what was kept
   */
  constructor(host: Host, reveal: (address: Address) => void, teller: Teller) {
    this.#host = host;
    this.#reveal = reveal;
    this.#teller = teller;
    host.addController(this);
  }

  hostConnected(): void {
    addEventListener("keydown", this.#key, { capture: true });
  }

  hostDisconnected(): void {
    removeEventListener("keydown", this.#key, { capture: true });
    this.close();
  }

  get isOpen(): boolean {
    return this.#planning !== null;
  }

  /** Begins to plan, or leaves what is planned. */
  turn(session: Session, line: LineId, bar: number): void {
    if (this.isOpen) this.leave();
    else void this.show(session, line, bar);
  }

  /** Begins to plan on a line: on the stretch of it that is chosen, or on all of it. `bar` is where the hand is. */
  async show(session: Session, line: LineId, bar: number): Promise<void> {
    await import("./line-sentence.ts");
    if (this.#planning === null) {
      const { selection } = session;
      this.#chosen = stretchOn(line, selection);
      const forget = session.subscribe((change) => {
        if (change === "selection") this.#chosen = stretchOn(line, session.selection) ?? this.#chosen;
      });
      this.#planning = { session, line, bar, before: selection, forget };
      this.#host.requestUpdate();
    }
    await this.#host.updateComplete;
    this.#host.renderRoot.querySelector("line-sentence")?.focus();
  }

  /** Where the score shown differs from the one that is kept, on one line. */
  places(session: Session, line: LineId): ProposedPlaces | null {
    return proposedPlaces(session.proposal, line);
  }

  /** The sentence, while something is planned; `refusal` is why something else was not done. */
  render(refusal: string) {
    if (this.#planning === null) return nothing;
    const { session, line, bar } = this.#planning;
    return html`<line-sentence
      .score=${session.score}
      .proposed=${session.shown}
      .line=${line}
      .chosen=${this.#chosen}
      .bar=${bar}
      .refusal=${refusal || this.#refusal}
      @plan-changed=${this.#planChanged}
      @place-shown=${this.#placeShown}
      @plan-kept=${this.#keep}
      @plan-left=${this.leave}
    ></line-sentence>`;
  }

  /** Leaves what is planned, and gives the keys back to the grid. */
  readonly leave = (): void => {
    const planning = this.#planning;
    if (planning === null) return;
    this.close();
    planning.session.choose(planning.before);
    this.#returnKeys();
  };

  /** Is over with it without a word: the sketch is another, or the app goes. */
  close(): void {
    this.#planning?.forget();
    this.#planning?.session.leave();
    this.#planning = null;
    this.#refusal = "";
    this.#host.requestUpdate();
  }

  readonly #keep = (): void => {
    const planning = this.#planning;
    if (planning === null) return;
    const { session, before } = planning;
    session.choose(before);
    session.keep();
    const kept = session.score;
    this.close();
    this.#returnKeys();
    // Once the sketch is another, "Undo" would take something else back.
    const act = (): void => {
      if (session.score === kept) session.undo();
    };
    this.#teller.tell(`Kept. ${this.#words}`, { label: "Undo", act });
  };

  readonly #planChanged = (event: PlanChangedEvent): void => {
    const session = this.#planning?.session;
    if (session === undefined) return;
    const { edits, label, words } = event.detail.plan;
    this.#words = words;
    const outcome = edits.length === 0 ? null : applyEdits(session.score, edits);
    this.#refusal = outcome === null || outcome.ok ? "" : outcome.reason;
    if (outcome?.ok) session.propose({ score: outcome.value, label, edits });
    else session.leave();
    this.#host.requestUpdate();
  };

  readonly #placeShown = (event: PlaceShownEvent): void => {
    const { address } = event.detail;
    this.#planning?.session.choose({ kind: "note", at: address });
    this.#reveal(address);
  };

  /** Escape leaves, wherever the keys are, but not from within a panel or a menu, which it closes. */
  readonly #key = (event: KeyboardEvent): void => {
    if (event.key !== "Escape" || this.#planning === null) return;
    if (event.composedPath().some((target) => target instanceof Element && target.matches(":popover-open, dialog[open]"))) return;
    event.preventDefault();
    event.stopPropagation();
    this.leave();
  };

  #returnKeys(): void {
    this.#host.renderRoot.querySelector("scale-grid")?.focus();
  }
}

function stretchOn(line: LineId, selection: Selection): Stretch | null {
  return selection.kind === "stretch" && selection.line === line ? { from: selection.from, to: selection.to } : null;
}
