import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { PROJECT } from "./project-files.ts";

/** WCAG 2.2, 1.4.3: text under 24 px (18.66 px bold) needs 4.5:1. */
const LEAST_CONTRAST = 4.5;

const TOKENS = readFileSync(join(PROJECT, "components/shared/tokens.css"), "utf8");

/** Every token that is text, with every ground it may stand on. */
const PAIRS = [
  ...["ink", "ink-2", "ink-3", "steel", "steel-deep", "hum-ink"].flatMap((text) =>
    ["ground", "paper", "paper-dim"].map((ground) => [text, ground] as const),
  ),
  ["ink", "steel-wash"],
  ["steel", "steel-wash"],
  ["ink", "hum"],
  ["hum-ink", "hum"],
  ["on-steel", "steel"],
  ["paper", "ink"],
] as const;

test.each(PAIRS)(`%s on %s has a contrast of at least ${LEAST_CONTRAST} by day and by lamplight`, (text, ground) => {
  for (const theme of [0, 1] as const) {
    expect(contrast(token(text)[theme], token(ground)[theme])).toBeGreaterThanOrEqual(LEAST_CONTRAST);
  }
});

/** A token's two colours, `#rrggbb`. */
function token(name: string): readonly [string, string] {
  const found = new RegExp(`--${name}: light-dark\\((#[0-9a-f]{6}), (#[0-9a-f]{6})\\)`).exec(TOKENS);
  if (!found) throw new RangeError(`no token --${name}`);
  return [found[1] ?? "", found[2] ?? ""];
}

/** Source: WCAG 2.2, "contrast ratio" and "relative luminance". */
function contrast(one: string, other: string): number {
  const [light, dark] = [luminance(one), luminance(other)].sort((a, b) => b - a) as [number, number];
  return (light + 0.05) / (dark + 0.05);
}

function luminance(colour: string): number {
  const [red, green, blue] = [1, 3, 5].map((at) => {
    const value = Number.parseInt(colour.slice(at, at + 2), 16) / 255;
    return value <= 0.04045 ? value / 12.92 : ((value + 0.055) / 1.055) ** 2.4;
  }) as [number, number, number];
  return 0.2126 * red + 0.7152 * green + 0.0722 * blue;
}
