import { expect, test } from "vitest";
import { shapeBars, shapeText } from "../support/shape-bars.ts";
import looked from "./shape.json";

test("Chromium draws the same bars as Node, number for number", () => {
  expect(JSON.parse(shapeText(shapeBars()))).toEqual(looked);
});
