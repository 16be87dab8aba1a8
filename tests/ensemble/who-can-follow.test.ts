import { expect, it } from "vitest";
import { whoCanFollow } from "../../src/ensemble/who-can-follow.ts";
import { hertz } from "../../src/units/hertz.ts";

it("At A 440 everybody can play; at A 442 all but the fixed; at A 453.1 brass and reeds no more (common practice, from memory)", () => {
  expect(whoCanFollow(hertz(440))).toBe("Everybody can play at this pitch.");
  expect(whoCanFollow(hertz(442))).toContain("brass and reeds just about");
  expect(whoCanFollow(hertz(453.06))).toContain("follow to A\u00a0453.1. Brass and reeds reach about 435 to 446.");
});
