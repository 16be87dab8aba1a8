import "../../components/shared/tokens.css";
import "../../components/setup/setup-panels.ts";
import "../../components/setup/setup-sentence.ts";
import type { SetupSentence } from "../../components/setup/setup-sentence.ts";
import type { FilledBlank } from "../../components/shared/filled-blank.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import type { Key } from "../../src/pitch/key.ts";
import { USUAL_BAND_A } from "../../src/pitch/reference-pitch.ts";
import type { Hertz } from "../../src/units/hertz.ts";

/** A `<setup-sentence>` in a page that keeps what it asks for, as the app does. The only place that knows its shadow trees. */
export class SetupPage {
  readonly element: SetupSentence;
  /** Every setup that was asked for, in order. */
  readonly setups: PipeSetup[] = [];
  readonly bandAs: Hertz[] = [];

  private constructor(element: SetupSentence) {
    this.element = element;
  }

  static async open(setup: PipeSetup, key: Key | null = null): Promise<SetupPage> {
    const page = new SetupPage(document.createElement("setup-sentence"));
    const { element } = page;
    element.setup = setup;
    element.bandA = USUAL_BAND_A;
    element.key = key;
    element.addEventListener("setup-changed", (event) => {
      const changed = (event as CustomEvent<{ setup: PipeSetup }>).detail.setup;
      page.setups.push(changed);
      element.setup = changed;
    });
    element.addEventListener("band-a-changed", (event) => {
      const changed = (event as CustomEvent<{ bandA: Hertz }>).detail.bandA;
      page.bandAs.push(changed);
      element.bandA = changed;
    });
    const main = document.createElement("main");
    main.append(element);
    document.body.append(main);
    await page.settled();
    return page;
  }

  /** The whole sentence as it is read, without what only a screen reader hears. */
  get sentence(): string {
    const root = this.element.shadowRoot as ShadowRoot;
    const words = [...root.childNodes].map((node) =>
      node.nodeName === "FILLED-BLANK" ? (node as FilledBlank).words : node.nodeType === Node.TEXT_NODE ? node.textContent : "",
    );
    return words.join("").replace(/\s+/g, " ").trim();
  }

  blank(label: string): FilledBlank {
    const found = [...this.#root.querySelectorAll("filled-blank")].find((own) => own.label === label);
    if (!found) throw new Error(`No blank is called ${label}.`);
    return found;
  }

  /** Opens the panel under a word and gives its tree. */
  async openPanel(label: string): Promise<ShadowRoot> {
    const blank = this.blank(label);
    blank.show();
    await this.settled();
    return this.panel(label);
  }

  panel(label: string): ShadowRoot {
    return this.blank(label).firstElementChild?.shadowRoot as ShadowRoot;
  }

  /** What a panel says, in one line. */
  said(label: string): string {
    return (this.panel(label).textContent ?? "").replace(/\s+/g, " ");
  }

  /** Presses the button or ticks the box whose name begins so. */
  async press(label: string, name: string): Promise<void> {
    const named = [...this.panel(label).querySelectorAll<HTMLElement>("button, label")].find((own) => nameOf(own).startsWith(name));
    if (!named) throw new Error(`Nothing under ${label} is called ${name}: ${this.said(label)}`);
    (named.querySelector("input") ?? named).click();
    await this.settled();
  }

  /** Types into a field and leaves it; in a form, sends the form. */
  async type(label: string, selector: string, text: string): Promise<void> {
    const field = this.panel(label).querySelector<HTMLInputElement | HTMLSelectElement>(selector);
    if (!field) throw new Error(`No field ${selector} under ${label}.`);
    field.value = text;
    if (field.form) field.form.requestSubmit();
    else field.dispatchEvent(new Event("change"));
    await this.settled();
  }

  async settled(): Promise<void> {
    await this.element.updateComplete;
    for (const blank of this.#root.querySelectorAll("filled-blank")) {
      await blank.updateComplete;
      await (blank.firstElementChild as unknown as { updateComplete: Promise<boolean> }).updateComplete;
    }
  }

  get #root(): ShadowRoot {
    return this.element.shadowRoot as ShadowRoot;
  }
}

function nameOf(element: HTMLElement): string {
  return (element.getAttribute("aria-label") ?? element.textContent ?? "").replace(/\s+/g, " ").trim();
}
