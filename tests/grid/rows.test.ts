import { describe, expect, test } from "vitest";
import { DESK, heightOf, PHONE, rowsHeight } from "../../components/grid/grid-measures.ts";
import { bareSemitones, gridRows, noteBeside, rowAt } from "../../components/grid/grid-rows.ts";
import { defaultCrossFingerings } from "../../src/pipes/cross-fingerings.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { hertz } from "../../src/units/hertz.ts";

const BAND = hertz(440);
const rows = gridRows(defaultSetup("B"), BAND, DESK);

test("rows reach from 300 cents under low A to 1290 over it, at 0.212 px a cent on a desk and 0.263 on a phone", () => {
  expect(rowsHeight(DESK)).toBe(337);
  expect(rowsHeight(PHONE)).toBe(418);
  expect(heightOf(DESK, 1290)).toBe(DESK.chords);
  expect(heightOf(DESK, 0) - heightOf(DESK, 100)).toBeCloseTo(21.2, 1);
});

test("the least gap of the septimal scale, F to high G, is 84.5 cents, 18 px", () => {
  const gaps = rows.slice(1).map((row, index) => row.y - (rows[index]?.y ?? 0));
  expect(Math.min(...gaps)).toBeCloseTo(17.9, 1);
});

test("words nearer than 20 px give way by 2 px each, the rows themselves never", () => {
  const [highG, f] = [rows.find(({ note }) => note === "high-g"), rows.find(({ note }) => note === "f")];
  expect(highG?.labelY).toBeCloseTo((highG?.y ?? 0) - 2, 5);
  expect(f?.labelY).toBeCloseTo((f?.y ?? 0) + 2, 5);
  for (const row of rows.filter(({ note }) => note !== "f" && note !== "high-g")) expect(row.labelY).toBe(row.y);
});

test("the stroke to the band ends where the band has the same pitch: high G of the septimal scale is 31 cents under it", () => {
  const highG = rows.find(({ note }) => note === "high-g");
  expect((highG?.y ?? 0) - (highG?.bandY ?? 0)).toBeCloseTo(31.17 * DESK.scale, 1);
  expect(rows.find(({ note }) => note === "low-a")?.bandY).toBe(rows.find(({ note }) => note === "low-a")?.y);
});

test("every semitone of the band in reach has a tick or a row: 16 from 300 cents under low A to 1200 over it", () => {
  expect(bareSemitones(rows, DESK)).toHaveLength(16 - rows.length);
});

describe("from row to row", () => {
  test("the nearest row is found, between two the nearer one", () => {
    expect(rowAt(rows, heightOf(DESK, 0)).note).toBe("low-a");
    expect(rowAt(rows, heightOf(DESK, 120)).note).toBe("b");
    expect(rowAt(rows, -100).note).toBe("high-a");
  });

  test("up and down go to the next row and stop at the ends", () => {
    expect(noteBeside(rows, "c", 0, 1)).toBe("d");
    expect(noteBeside(rows, "high-a", 0, 1)).toBe("high-a");
    expect(noteBeside(rows, "low-g", 0, -1)).toBe("low-g");
  });

  test("a note without a row goes to the row above or below where it sounds", () => {
    const y = heightOf(DESK, 316);
    expect(noteBeside(rows, "c-natural", y, 1)).toBe("c");
    expect(noteBeside(rows, "c-natural", y, -1)).toBe("b");
  });

  test("a cross-fingered note that speaks has its row between its neighbours", () => {
    const more = gridRows({ ...defaultSetup("B"), crossFingerings: defaultCrossFingerings(["c-natural"]) }, BAND, DESK);
    expect(more.map(({ note }) => note).slice(5, 8)).toEqual(["c", "c-natural", "b"]);
    expect(noteBeside(more, "b", 0, 1)).toBe("c-natural");
  });
});
