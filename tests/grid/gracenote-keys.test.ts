import { describe, expect, it } from "vitest";
import { gracenoteKey } from "../../components/grid/gracenote-keys.ts";
import { drawPicture, PICTURE_HEIGHT, PICTURE_WIDTH, picturePaths } from "../../components/grid/gracenote-picture.ts";
import { offersFor } from "../../src/arranging/gracenote-offers.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { centsOverLowA } from "../../src/pipes/sounding.ts";
import { at, pipeSketch } from "../support/pipe-sketch.ts";

/** From B to D: a G and an E gracenote, both throws, two doublings, and more. */
const OFFERS = offersFor(pipeSketch("B4! d4"), at(0, 4));

/** Where a key leads or what it takes, by name. */
function pressed(key: string, here = 0, typed = ""): string | null {
  const does = gracenoteKey(key, OFFERS, here, typed);
  return does === null ? null : "index" in does ? `${does.kind} ${OFFERS[does.index]?.name}` : does.kind;
}

describe("a key in the choice of gracenotes", () => {
  it("the offers are these", () => {
    expect(OFFERS.map(({ name }) => name)).toEqual([
      "G gracenote",
      "E gracenote",
      "light throw",
      "heavy throw",
      "doubling",
      "doubling",
      "taorluath",
      "grip",
      "thumb gracenote",
    ]);
  });

  it.each([
    ["ArrowDown", 0, "go E gracenote"],
    ["ArrowUp", 0, "go thumb gracenote"],
    ["End", 3, "go thumb gracenote"],
    ["Home", 3, "go G gracenote"],
    ["Enter", 3, "take heavy throw"],
    [" ", 3, "take heavy throw"],
    ["3", 0, "take light throw"],
    ["9", 0, "take thumb gracenote"],
    ["0", 3, "take-away"],
    ["Delete", 3, "take-away"],
    ["/", 0, "spell"],
    ["{", 0, "spell"],
    ["F5", 0, null],
    ["?", 0, null],
  ])("%s on offer %i: %s", (key, here, does) => {
    expect(pressed(key, here)).toBe(does);
  });

  it("G, E and A take that gracenote where it fits, large or small", () => {
    expect(pressed("g")).toBe("take G gracenote");
    expect(pressed("E")).toBe("take E gracenote");
    expect(pressed("a")).toBe("take thumb gracenote");
  });

  it("D, which no finger can play on D, goes to the next name that begins with it, and on", () => {
    expect(pressed("d")).toBe("go doubling");
    expect(gracenoteKey("d", OFFERS, 4, "")).toEqual({ kind: "go", index: 5 });
    expect(gracenoteKey("d", OFFERS, 5, "")).toEqual({ kind: "go", index: 4 });
  });

  it("letters typed close together spell a name or one of its words; what no name has does nothing", () => {
    expect(pressed("t")).toBe("go taorluath");
    expect(pressed("h", 6, "t")).toBe("go thumb gracenote");
    expect(pressed("r", 8, "th")).toBe("go light throw");
    expect(pressed("x")).toBeNull();
  });

  it("does nothing where nothing is offered, but for taking away and spelling", () => {
    for (const key of ["ArrowDown", "Enter", "1", "g", "l"]) expect(gracenoteKey(key, [], 0, "")).toBeNull();
    expect(gracenoteKey("0", [], 0, "")).toEqual({ kind: "take-away" });
  });
});

describe("the picture of a group", () => {
  const setup = defaultSetup("B");
  const height = (note: Parameters<typeof centsOverLowA>[1]) =>
    Math.round(((1290 - centsOverLowA(setup, note)) / 1580) * PICTURE_HEIGHT * 10) / 10;

  it("stands at the heights its notes sound at, 40 px for 1,580 cents", () => {
    const { moving, held } = picturePaths({
      setup,
      before: "b",
      notes: [{ note: "d", gracenotes: ["low-g", "d", "c"] }],
      placement: "on-beat",
    });
    const heights = [...moving.matchAll(/V([\d.]+)/g)].map(([, y]) => Number(y));
    expect(heights).toEqual([height("low-g"), height("d"), height("c"), height("d")]);
    expect(held).toContain(`M0 ${height("b") - 2}`);
  });

  it("begins on the beat's rule, or ends there where the group comes before the beat", () => {
    const picture = (placement: "on-beat" | "before-beat") =>
      picturePaths({ setup, before: "e", notes: [{ note: "c", gracenotes: ["low-g", "d", "low-g"] }], placement });
    expect(picture("on-beat").beats).toBe(`M26 0V${PICTURE_HEIGHT}`);
    expect(picture("on-beat").moving).toMatch(/^M26 /);
    expect(picture("before-beat").moving).toMatch(/^M14 /);
    expect(picture("before-beat").moving).toMatch(/H26V[\d.]+$/);
  });

  it("shows a figure's notes side by side, each with its beat, inside the picture", () => {
    const notes = (["high-g", "d", "e"] as const).map((gracenote) => ({ note: "b" as const, gracenotes: [gracenote] }));
    const { held, moving, beats } = picturePaths({ setup, before: null, notes, placement: "on-beat" });
    expect(beats.match(/M/g)).toHaveLength(3);
    expect(moving.match(/M/g)).toHaveLength(3);
    expect(held.match(/M/g)).toHaveLength(3);
    for (const [, x] of held.matchAll(/H([\d.]+)/g)) expect(Number(x)).toBeLessThanOrEqual(PICTURE_WIDTH);
    expect(drawPicture({ setup, before: null, notes, placement: "on-beat" })).toBeDefined();
  });
});
