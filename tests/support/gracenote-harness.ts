import type { GroupToHear } from "../../src/playback/heard-group.ts";
import type { GridHarness } from "./grid-harness.ts";

/** The choice of gracenotes of a grid. Only this knows its shadow DOM. */
export class GracenoteHarness {
  /** What was asked to be heard and to stop, in order: a group, or null for silence. */
  readonly heard: (GroupToHear | null)[] = [];
  readonly #menu: HTMLElement;

  constructor({ grid }: GridHarness) {
    this.#menu = grid.shadowRoot?.querySelector("gracenote-menu") as HTMLElement;
    grid.addEventListener("gracenotes-touched", (event) => this.heard.push((event as CustomEvent<{ group: GroupToHear }>).detail.group));
    grid.addEventListener("gracenotes-released", () => this.heard.push(null));
  }

  get isOpen(): boolean {
    return this.#root.querySelector("[popover]")?.matches(":popover-open") ?? false;
  }

  /** The offers as they are read: name and spelling. */
  get offers(): readonly string[] {
    return this.#options.map((option) => [".name", ".letters"].map((part) => option.querySelector(part)?.textContent ?? "").join(": "));
  }

  /** As the screen reader hears them. */
  get spoken(): readonly string[] {
    return this.#options.map((option) =>
      ["words", "mark"].map((part) => option.querySelector(`.${part}`)?.textContent?.trim() ?? "").join(""),
    );
  }

  /** The offer that has the focus; -1 when none has. */
  get focused(): number {
    return this.#options.indexOf(this.#root.activeElement as HTMLElement);
  }

  get selected(): readonly number[] {
    return this.#options.flatMap((option, index) => (option.getAttribute("aria-selected") === "true" ? [index] : []));
  }

  /** What is said of the spelling. */
  get answer(): string {
    return this.#root.querySelector("#answer")?.textContent?.trim() ?? "";
  }

  /** Why nothing fits, or an empty text. */
  get whyNone(): string {
    return this.#root.querySelector(".none")?.textContent ?? "";
  }

  get field(): HTMLInputElement {
    return this.#root.querySelector("input") as HTMLInputElement;
  }

  hover(index: number, type: "pointermove" | "pointerleave" = "pointermove"): void {
    const target = type === "pointermove" ? this.#options[index] : this.#root.querySelector(".list");
    target?.dispatchEvent(new PointerEvent(type, { pointerType: "mouse" }));
  }

  press(index: number, pointerType: "mouse" | "touch" = "mouse"): void {
    const option = this.#options[index];
    option?.dispatchEvent(new PointerEvent("pointerdown", { pointerType, bubbles: true }));
    option?.click();
  }

  /** Presses a button by its words; false when it is not there or out of use. */
  pressButton(words: string): boolean {
    const button = [...this.#root.querySelectorAll("button")].find(({ textContent }) => textContent?.trim() === words);
    if (button === undefined || button.disabled) return false;
    button.click();
    return true;
  }

  get #root(): ShadowRoot {
    return this.#menu.shadowRoot as ShadowRoot;
  }

  get #options(): HTMLElement[] {
    return [...this.#root.querySelectorAll<HTMLElement>('[role="option"]')];
  }
}
