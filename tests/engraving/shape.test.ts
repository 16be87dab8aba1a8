import { expect, test } from "vitest";
import { shapeBars, shapeText } from "../support/shape-bars.ts";

test("the drawings of a few bars are those that were looked at and found good", async () => {
  await expect(shapeText(shapeBars())).toMatchFileSnapshot("./shape.json");
});
