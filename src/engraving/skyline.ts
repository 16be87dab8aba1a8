import type { Box } from "./drawing.ts";

/** The ink so far, asked for how high or low it reaches over a stretch, so that words are put clear of it. */
export class Skyline {
  readonly #boxes: Box[] = [];

  add(box: Box): void {
    this.#boxes.push(box);
  }

  /** The highest ink between two x, or `otherwise` if that is higher. */
  topOver(left: number, right: number, otherwise: number): number {
    let top = otherwise;
    for (const box of this.#boxes) if (box.left < right && box.right > left && box.top < top) top = box.top;
    return top;
  }

  /** The lowest ink between two x, or `otherwise` if that is lower. */
  bottomUnder(left: number, right: number, otherwise: number): number {
    let bottom = otherwise;
    for (const box of this.#boxes) if (box.left < right && box.right > left && box.bottom > bottom) bottom = box.bottom;
    return bottom;
  }
}
