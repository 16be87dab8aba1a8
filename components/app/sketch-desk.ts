import { html, nothing, type ReactiveController, type ReactiveControllerHost } from "lit";
import { saveSketchFile } from "../session/sketch-file.ts";
import type { SketchSummary } from "../session/sketch-store.ts";
import { messageOf, Workspace } from "../session/workspace.ts";
import { EXAMPLES } from "./examples.ts";
import type { SketchAskedEvent, SketchShelf } from "./sketch-shelf.ts";

/** How long something told stays on screen, in milliseconds. */
const TELLING = 6000;

/** Something to tell the user, with one offer at most. */
interface Telling {
  readonly words: string;
  readonly offer: { readonly label: string; readonly act: () => void } | null;
}

type Host = ReactiveControllerHost & { readonly renderRoot: ParentNode };

/** Opening, keeping, saving and removing sketches: the shelf, files dropped on the page, and what the user is told of it. */
export class SketchDesk implements ReactiveController {
  readonly workspace: Workspace;
  readonly #host: Host;
  #shelf: readonly SketchSummary[] = [];
  #trouble = "";
  #dropping = false;
  #telling: Telling | null = null;
  #timer: ReturnType<typeof setTimeout> | null = null;

  /** @param changed called when another sketch is open, or its save state is another */
  constructor(host: Host, changed: () => void) {
    this.#host = host;
    this.workspace = new Workspace(changed);
    host.addController(this);
  }

  hostConnected(): void {
    document.addEventListener("visibilitychange", this.#leaving);
    addEventListener("pagehide", this.#leaving);
    addEventListener("dragover", this.#dragged);
    addEventListener("dragleave", this.#dragLeft);
    addEventListener("drop", this.#dropped);
  }

  hostDisconnected(): void {
    document.removeEventListener("visibilitychange", this.#leaving);
    removeEventListener("pagehide", this.#leaving);
    removeEventListener("dragover", this.#dragged);
    removeEventListener("dragleave", this.#dragLeft);
    removeEventListener("drop", this.#dropped);
    if (this.#timer !== null) clearTimeout(this.#timer);
    void this.workspace.flush();
  }

  /** Opens what was open last; true when this is the first visit and an example was opened instead. */
  async start(): Promise<boolean> {
    const { told, first } = await this.workspace.start(firstExample);
    if (told !== "") this.tell(told);
    return first;
  }

  /** The shelf, what is told, and the page's answer to a file held over it. */
  render() {
    return html`<sketch-shelf
        .sketches=${this.#shelf}
        .current=${this.workspace.sketch?.id ?? ""}
        .kept=${this.workspace.keeps}
        .trouble=${this.#trouble}
        @sketch-asked=${this.#asked}
        @sketch-removed=${this.#removed}
        @save-asked=${this.save}
      ></sketch-shelf>
      ${this.#dropping ? html`<div class="drop">Let go to open this sketch</div>` : nothing}
      <div class="telling" role="status">${this.#told()}</div>`;
  }

  readonly show = async (): Promise<void> => {
    this.#trouble = "";
    // Nobody needs it to read a sketch, so it is no part of the first load.
    await Promise.all([import("./sketch-shelf.ts"), this.#renew()]);
    await this.#host.updateComplete;
    await this.#shelfElement?.updateComplete;
    this.#shelfElement?.show();
  };

  readonly save = (): void => {
    const score = this.workspace.sketch?.session.score;
    if (score !== undefined) saveSketchFile(score);
  };

  /** Shows a sentence, and one offer at most, for a few seconds. */
  tell(words: string, offer: Telling["offer"] = null): void {
    this.#telling = { words, offer };
    if (this.#timer !== null) clearTimeout(this.#timer);
    this.#timer = setTimeout(() => this.#hush(), TELLING);
    this.#host.requestUpdate();
  }

  /** Null until it was first asked for. */
  get #shelfElement(): SketchShelf | null {
    if (customElements.get("sketch-shelf") === undefined) return null;
    return this.#host.renderRoot.querySelector("sketch-shelf");
  }

  #hush(): void {
    this.#telling = null;
    this.#host.requestUpdate();
  }

  #told() {
    if (this.#telling === null) return nothing;
    const { words, offer } = this.#telling;
    return html`<span>${words}</span>${offer === null ? nothing : html`<button class="link" type="button" @click=${offer.act}>${offer.label}</button>`}`;
  }

  async #renew(): Promise<void> {
    this.#shelf = await this.workspace.list();
    this.#host.requestUpdate();
  }

  readonly #asked = async (event: SketchAskedEvent): Promise<void> => {
    const { detail } = event;
    try {
      const told = await this.#open(detail);
      this.#shelfElement?.hide();
      await this.#host.updateComplete;
      this.#host.renderRoot.querySelector("scale-grid")?.focus();
      if (told !== "") this.tell(told);
    } catch (error) {
      this.#trouble = detail.kind === "file" ? notOpened(detail.file, error) : sentence(messageOf(error));
      this.#host.requestUpdate();
    }
  };

  async #open(asked: SketchAskedEvent["detail"]): Promise<string> {
    switch (asked.kind) {
      case "stored":
        return this.workspace.openStored(asked.id);
      case "new":
        await this.workspace.openNew();
        return "";
      case "file":
        await this.workspace.openFile(asked.file);
        return "";
      case "example": {
        const example = EXAMPLES.find(({ name }) => name === asked.name);
        if (example !== undefined) await this.workspace.openText(await example.load());
        return "";
      }
    }
  }

  readonly #removed = async (event: CustomEvent<{ readonly id: string }>): Promise<void> => {
    const putBack = await this.workspace.remove(event.detail.id);
    await this.#renew();
    this.#shelfElement?.offerUndo(async () => {
      await putBack();
      await this.#renew();
    });
  };

  readonly #leaving = (): void => {
    if (document.visibilityState === "hidden") void this.workspace.flush();
  };

  readonly #dragged = (event: DragEvent): void => {
    if (!event.dataTransfer?.types.includes("Files")) return;
    event.preventDefault();
    this.#drop(true);
  };

  readonly #dragLeft = (event: DragEvent): void => {
    if (event.relatedTarget === null) this.#drop(false);
  };

  readonly #dropped = async (event: DragEvent): Promise<void> => {
    const file = event.dataTransfer?.files[0];
    if (file === undefined) return;
    event.preventDefault();
    this.#drop(false);
    try {
      await this.workspace.openFile(file);
    } catch (error) {
      this.tell(notOpened(file, error));
    }
  };

  #drop(dropping: boolean): void {
    if (dropping === this.#dropping) return;
    this.#dropping = dropping;
    this.#host.requestUpdate();
  }
}

function notOpened(file: File, error: unknown): string {
  return `${file.name} was not opened. ${sentence(messageOf(error))} Nothing was changed.`;
}

function sentence(words: string): string {
  return words.endsWith(".") ? words : `${words}.`;
}

/** What a first visit opens. */
async function firstExample(): Promise<string> {
  const first = EXAMPLES[0];
  if (first === undefined) throw new RangeError("The app ships with no example.");
  return first.load();
}
