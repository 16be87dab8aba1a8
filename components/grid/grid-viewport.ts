import type { BarRange } from "../../src/score/edit.ts";
import { barAtPlace, barsBetween, totalWidth } from "./bar-places.ts";

/** Px drawn beyond both edges of the view, so that scrolling finds bars there. */
const SPARE = 400;

/** How far from the edge, as a share of the view, what was brought into view stands. */
const INSET = 0.1;

/** What the grid shows of the sketch, px and bars. */
export interface GridView {
  readonly scrollLeft: number;
  readonly viewWidth: number;
  readonly firstBar: number;
  readonly lastBar: number;
}

/** The part of the sketch that is in view. */
export class GridViewport {
  readonly #root: () => ParentNode | undefined;
  /** Where the box stands and how wide it is, px; null before it was asked and after it was moved from here. */
  #known: { readonly left: number; readonly width: number } | null = null;

  /** @param root where the scrolling box is looked for; undefined before anything is drawn. */
  constructor(root: () => ParentNode | undefined) {
    this.#root = root;
  }

  /** The box that scrolls, once it is drawn. */
  get scroller(): HTMLElement | null {
    return this.#root()?.querySelector<HTMLElement>(".scroller") ?? null;
  }

  /** To be called whenever the box was scrolled or has another size: only then is it asked, since asking after an edit costs a layout. */
  moved(): void {
    this.#known = null;
  }

  /** Scrolls to a place, px from the start of the score. */
  scrollTo(left: number): void {
    const { scroller } = this;
    if (scroller !== null) scroller.scrollLeft = left;
    this.moved();
  }

  /** The bars in view. */
  view(widths: readonly number[]): GridView {
    const { left, width } = this.#box();
    const { first, last } = barsBetween(widths, left, left + width);
    return { scrollLeft: left, viewWidth: width, firstBar: first, lastBar: last };
  }

  /** The bars to draw: those in view and some on both sides. */
  range(widths: readonly number[]): BarRange {
    const { left, width } = this.#box();
    return barsBetween(widths, Math.max(0, left - SPARE), left + width + SPARE);
  }

  /** The first bar in view. */
  firstBar(widths: readonly number[]): number {
    return barAtPlace(widths, this.#box().left);
  }

  /** Lets the ground end with the last bar. */
  fitGround(widths: readonly number[]): void {
    const ground = this.#root()?.querySelector<SVGElement>(".back");
    const { left, width } = this.#box();
    const seen = `${Math.max(0, Math.min(width, totalWidth(widths) - left))}px`;
    if (ground && ground.style.inlineSize !== seen) ground.style.inlineSize = seen;
  }

  /** Scrolls no further than it takes to see a stretch, px from the start of the score. */
  bringIntoView(from: number, to: number): void {
    const { left, width } = this.#box();
    if (from < left) this.scrollTo(from - width * INSET);
    else if (to > left + width) this.scrollTo(to - width * (1 - INSET));
  }

  #box(): { readonly left: number; readonly width: number } {
    if (this.#known !== null) return this.#known;
    const { scroller } = this;
    if (scroller === null) return { left: 0, width: innerWidth };
    this.#known = { left: scroller.scrollLeft, width: scroller.clientWidth || innerWidth };
    return this.#known;
  }
}
