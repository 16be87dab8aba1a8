import { expect, it } from "vitest";
import { setupAdvice } from "../../src/pipes/advice.ts";
import { airDrift, warmthSentence } from "../../src/pipes/air-temperature.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { hertz } from "../../src/units/hertz.ts";

it("A and B-flat chanters are told of extenders, a B chanter of its pins, an ordinary one at 480 Hz and smallpipes of nothing (common practice)", () => {
  expect(setupAdvice(defaultSetup("A"))[0]?.text).toContain("extenders");
  expect(setupAdvice(defaultSetup("Bb"))[0]?.text).toContain("extenders");
  expect(setupAdvice(defaultSetup("B"))[0]?.text).toContain("pins");
  expect(setupAdvice(defaultSetup(hertz(480)))).toEqual([]);
  expect(setupAdvice(defaultSetup(hertz(220)))).toEqual([]);
});

it("Every piece of advice is marked as common practice", () => {
  for (const name of ["A", "Bb", "B"] as const)
    for (const { source } of setupAdvice(defaultSetup(name))) expect(source).toBe("Common practice.");
});

it("One degree of warming near 20 degrees raises an air column by 3 cents, 0.8 Hz at 478 Hz (derived)", () => {
  expect(airDrift(20, 21)).toBeCloseTo(2.95, 2);
  expect(478 * 2 ** (airDrift(20, 21) / 1200) - 478).toBeCloseTo(0.8, 1);
  expect(airDrift(21, 20)).toBeCloseTo(-2.95, 2);
  expect(airDrift(20, 20)).toBe(0);
  expect(warmthSentence(hertz(478))).toContain("about 3 cents, 0.8 Hz here");
});
