import { expect, it } from "vitest";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { leadingToneOf } from "../../src/pipes/leading-tone.ts";
import { keyFromName } from "../../src/pitch/key-signature.ts";

const onA = defaultSetup("A");
const onB = defaultSetup("B");
const leading = (setup: typeof onA, name: string) => leadingToneOf(setup, keyFromName(name));

it("The leading tone is plain C in written D and plain F in written G", () => {
  expect(leading(onA, "D major")).toEqual({ kind: "plain", note: "c" });
  expect(leading(onA, "G major")).toEqual({ kind: "plain", note: "f" });
});

it("The leading tone is cross-fingered high G sharp in written A, and says whether it speaks", () => {
  expect(leading(onA, "A major")).toEqual({ kind: "cross-fingered", note: "high-g-sharp", speaks: false });
  const ticked = { ...onA, crossFingerings: defaultCrossFingerings(["high-g-sharp"]) };
  expect(leading(ticked, "A mixolydian")).toEqual({ kind: "cross-fingered", note: "high-g-sharp", speaks: true });
});

it("The leading tone cannot be had in written B minor (A sharp) and E minor (D sharp)", () => {
  expect(leading(onA, "B minor")).toEqual({ kind: "none" });
  expect(leading(onA, "E minor")).toEqual({ kind: "none" });
});

it("On a B chanter E major needs nothing and B major needs high G sharp", () => {
  expect(leading(onB, "E major")).toEqual({ kind: "plain", note: "c" });
  expect(leading(onB, "B major")).toMatchObject({ kind: "cross-fingered", note: "high-g-sharp" });
});
