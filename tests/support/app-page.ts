import type { BrowserContext, Locator, Page } from "playwright-core";
import { openSketch, sketchIsUsable } from "./built-app.ts";

/* The app as a hand and an eye have it. Only this file knows where in the page things are. */

/** What the page did that it must not: policy breaks, requests to elsewhere, errors and warnings on the console. Empty when all is well. */
export type Complaints = readonly string[];

/** Opens the app in a new page and writes down every complaint from then on. */
export async function visit(user: BrowserContext, address: string): Promise<AppPage> {
  const page = await user.newPage();
  const complaints: string[] = [];
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") complaints.push(message.text());
  });
  page.on("pageerror", (error) => complaints.push(String(error)));
  page.on("request", (request) => {
    const { protocol, host } = new URL(request.url());
    if (protocol.startsWith("http") && host !== new URL(address).host) complaints.push(`asked ${request.url()}`);
  });
  await page.addInitScript(() => {
    document.addEventListener("securitypolicyviolation", (event) => {
      console.error(`policy: ${event.effectiveDirective} refused ${event.blockedURI} ${event.sample}`);
    });
    // So that a walk can ask whether sound is running.
    const contexts: AudioContext[] = [];
    const Own = AudioContext;
    Object.assign(globalThis, {
      soundContexts: contexts,
      AudioContext: class extends Own {
        constructor(options?: AudioContextOptions) {
          super(options);
          contexts.push(this);
        }
      },
    });
  });
  if ((page.viewportSize()?.width ?? 0) >= 600) await openSketch(page, address);
  else {
    await page.goto(address);
    await page.locator("scale-grid [role=gridcell]").first().waitFor({ state: "attached" });
  }
  return new AppPage(page, complaints);
}

/** One open page of the app. */
export class AppPage {
  readonly page: Page;
  readonly complaints: Complaints;

  constructor(page: Page, complaints: Complaints) {
    this.page = page;
    this.complaints = complaints;
  }

  // ---- the grid ----

  /** The cell of a column: bar from 0, ticks from its start. */
  cell(bar: number, at: number): Locator {
    return this.page.locator(`scale-grid [role=gridcell][data-bar="${bar}"][data-at="${at}"]`);
  }

  /** What a screen reader says of a cell. */
  async spoken(bar: number, at: number): Promise<string> {
    return (await this.cell(bar, at).getAttribute("aria-label")) ?? "";
  }

  /** Leads the keys to a cell, as a hand on the keyboard does. */
  async goTo(bar: number, at: number): Promise<void> {
    await this.page.locator("scale-grid [role=gridcell][tabindex='0']").focus();
    await this.press("Escape", "Control+Home", ...Array.from({ length: bar }, () => "PageDown"));
    for (let column = 0; column < 64 && (await this.#columnAtKeys()) < at; column += 1) await this.press("ArrowRight");
  }

  async #columnAtKeys(): Promise<number> {
    return Number(await this.page.locator("scale-grid [role=gridcell][tabindex='0']").getAttribute("data-at"));
  }

  /** Presses keys one after the other: `Enter`, `Shift+C`. */
  async press(...keys: readonly string[]): Promise<void> {
    for (const key of keys) await this.page.keyboard.press(key);
  }

  /** The middle of a column on a row, in px of the page. */
  async placeOf(bar: number, at: number, note: string): Promise<{ readonly x: number; readonly y: number }> {
    const column = await this.cell(bar, at).boundingBox();
    const row = await this.page.locator(`scale-grid button[data-note="${note}"]`).boundingBox();
    if (column === null || row === null) throw new RangeError(`bar ${bar}, ${at}, ${note} is not in view`);
    return { x: column.x + column.width / 2, y: row.y + row.height / 2 };
  }

  /** Clicks a row in a column. */
  async click(bar: number, at: number, note: string): Promise<void> {
    const { x, y } = await this.placeOf(bar, at, note);
    await this.page.mouse.click(x, y);
  }

  /** Names of the rows, highest first. */
  async rows(): Promise<readonly string[]> {
    return this.page.locator("scale-grid button[data-note]").evaluateAll((rows) => rows.map((row) => row.getAttribute("data-note") ?? ""));
  }

  // ---- the parts ----

  /** The parts' names, in order. */
  async partNames(): Promise<readonly string[]> {
    return this.page.locator("part-sheet h3").allTextContents();
  }

  /** The ink of a part as it is painted: another text means another picture. */
  async ink(part: number): Promise<string> {
    return this.page
      .locator("part-sheet")
      .nth(part)
      .locator("svg.surface .bars")
      .evaluate((bars) => bars.innerHTML.replace(/ class="[^"]*"/g, ""));
  }

  // ---- the setup ----

  /** The pipe setup as a sentence. */
  async setupSentence(): Promise<string> {
    const words = await this.page.locator("setup-sentence").evaluate((sentence) => {
      const read = (node: Node): string => {
        if (node instanceof HTMLElement && node.localName === "filled-blank") return (node as HTMLElement & { words: string }).words;
        return node.nodeType === Node.TEXT_NODE ? (node.textContent ?? "") : [...node.childNodes].map(read).join("");
      };
      return read((sentence as HTMLElement).shadowRoot as Node);
    });
    return words.replace(/\s+/g, " ").trim();
  }

  /** Opens a setting of the setup sentence; on a phone the sentence is unfolded first. */
  async openSetting(label: string): Promise<void> {
    const fold = this.page.locator("ninefold-app .fold");
    if ((await fold.isVisible()) && (await fold.getAttribute("aria-expanded")) === "false") await fold.click();
    await this.page
      .locator("setup-sentence")
      .getByRole("button", { name: new RegExp(`^${label}:`) })
      .click();
  }

  /** Puts a chanter in the stock: its button's first words, such as `B♭`. */
  async chooseChanter(name: string): Promise<void> {
    await this.page
      .locator("setup-sentence")
      .getByRole("button", { name: /^Chanter:/ })
      .click();
    await this.page
      .locator("chanter-panel .choices button")
      .filter({ hasText: new RegExp(`^\\s*${name},`) })
      .click();
    await this.page.keyboard.press("Escape");
  }

  // ---- sound ----

  async play(): Promise<void> {
    await this.page.locator("transport-bar").getByRole("button", { name: "Play" }).click();
    await this.page.locator("transport-bar").getByRole("button", { name: "Stop" }).waitFor();
  }

  async stop(): Promise<void> {
    await this.page.locator("transport-bar").getByRole("button", { name: "Stop" }).click();
    await this.page.locator("transport-bar").getByRole("button", { name: "Play" }).waitFor();
  }

  /** States of the audio contexts there are, and how far each has run, in seconds. */
  async soundContexts(): Promise<readonly { readonly state: string; readonly time: number }[]> {
    return this.page.evaluate(() => {
      const { soundContexts } = globalThis as unknown as { soundContexts: AudioContext[] };
      return soundContexts.map(({ state, currentTime }) => ({ state, time: currentTime }));
    });
  }

  /** How far right the moment line of the grid stands, in px from the start of the sketch. */
  async momentLine(): Promise<number> {
    const transform = await this.page.locator("scale-grid .moment").getAttribute("transform");
    return Number(/translate\(([\d.]+)/.exec(transform ?? "")?.[1] ?? 0);
  }

  /** What the transport says is heard: `bar 3 beat 2`. */
  async reading(): Promise<string> {
    return ((await this.page.locator("transport-bar .reading").textContent()) ?? "").replace(/\s+/g, " ").trim();
  }

  // ---- keeping ----

  async revision(): Promise<number> {
    const text = await this.page
      .locator("small-print")
      .getByText(/^Revision \d+$/)
      .textContent();
    return Number(/\d+/.exec(text ?? "")?.[0]);
  }

  /** Waits until the app says that everything is kept. */
  async acknowledged(): Promise<void> {
    await this.page.locator("ninefold-app [data-save=saved]").waitFor();
  }

  async title(): Promise<string> {
    return (await this.page.locator("ninefold-app h1").textContent()) ?? "";
  }

  async reload(): Promise<void> {
    await this.page.reload();
    await sketchIsUsable(this.page);
  }

  /** Opens an example as a copy. */
  async openExample(title: string): Promise<void> {
    const shelf = await this.openShelf();
    await shelf.getByRole("button", { name: title }).click();
    await shelf.waitFor({ state: "hidden" });
    await this.page.locator("ninefold-app h1").getByText(title).waitFor();
  }

  /** Opens a sketch from a file. */
  async openFile(path: string): Promise<void> {
    const shelf = await this.openShelf();
    await shelf.locator("input[type=file]").setInputFiles(path);
    await shelf.waitFor({ state: "hidden" });
  }

  /** Opens the shelf of sketches. */
  async openShelf(): Promise<Locator> {
    await this.page.getByRole("button", { name: "Sketches" }).click();
    const shelf = this.page.locator("sketch-shelf dialog");
    await shelf.waitFor();
    return shelf;
  }

  /** Kills the process that draws the page, as a crash would. The page is of no use afterwards. */
  async crash(): Promise<void> {
    const gone = this.page.waitForEvent("crash");
    const session = await this.page.context().newCDPSession(this.page);
    session.send("Page.crash").catch(() => undefined);
    await gone;
    await this.page.close();
  }
}
