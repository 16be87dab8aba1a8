import type { GreyPage } from "./poppler.ts";

/** The mean difference of grey of two pages of one size, the second moved to the right by so many dots. */
export function meanDifference(one: GreyPage, other: GreyPage, right = 0): number {
  let sum = 0;
  for (let y = 0; y < one.height; y += 1) {
    for (let x = right; x < one.width; x += 1) sum += Math.abs(greyAt(one, x, y) - greyAt(other, x - right, y));
  }
  return sum / (one.width * one.height);
}

/** The largest difference of grey of two pages of one size. */
export function largestDifference(one: GreyPage, other: GreyPage): number {
  return one.pixels.reduce((most, grey, place) => Math.max(most, Math.abs(grey - (other.pixels[place] ?? 0))), 0);
}

const REACH = 3;

/** Every dot as the mean of the 7 x 7 dots around it, so that how edges are smoothed hardly counts; white at the rim. */
export function blurred(page: GreyPage): GreyPage {
  return blurredAlong(blurredAlong(page, 1), page.width);
}

function blurredAlong({ width, height, pixels }: GreyPage, step: number): GreyPage {
  const smooth = new Uint8Array(pixels.length).fill(255);
  for (let place = REACH * step; place < pixels.length - REACH * step; place += 1) {
    let sum = 0;
    for (let away = -REACH; away <= REACH; away += 1) sum += pixels[place + away * step] as number;
    smooth[place] = Math.round(sum / (2 * REACH + 1));
  }
  return { width, height, pixels: smooth };
}

function greyAt({ width, pixels }: GreyPage, x: number, y: number): number {
  return pixels[y * width + x] as number;
}
