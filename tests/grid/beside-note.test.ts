import fc from "fast-check";
import { expect, it } from "vitest";
import { besideNote, type NoteBox, type Size } from "../../components/grid/beside-note.ts";

const WINDOW = { width: 1366, height: 900 };
const note = (left: number, y: number): NoteBox => ({ left, right: left + 40, top: y - 12, bottom: y + 12 });

it.each([
  ["under the note", note(300, 200), { width: 432, height: 400 }, { left: 300, top: 220 }],
  ["under it, moved into the window", note(1300, 200), { width: 432, height: 400 }, { left: 926, top: 220 }],
  ["over it where there is no room under", note(300, 700), { width: 432, height: 400 }, { left: 300, top: 280 }],
  ["to its right where neither has room", note(300, 450), { width: 432, height: 560 }, { left: 364, top: 170 }],
  ["to its left at the window's right", note(1200, 450), { width: 432, height: 560 }, { left: 744, top: 170 }],
])("a menu goes %s", (_where, box, menu, place) => {
  expect(besideNote(box, menu, WINDOW)).toEqual(place);
});

it("a menu that has room lies inside the window and never on its note", () => {
  const size = (least: number, most: number) =>
    fc.record({ width: fc.integer({ min: least, max: most }), height: fc.integer({ min: least, max: most }) });
  let clear = 0;
  fc.assert(
    fc.property(
      size(700, 1600),
      size(100, 500),
      fc.integer({ min: 0, max: 1600 }),
      fc.integer({ min: 20, max: 1600 }),
      (window, menu, x, y) => {
        const box = note(Math.min(x, window.width - 60), Math.min(y, window.height - 20));
        const { left, top } = besideNote(box, menu, window);
        expect(left).toBeGreaterThanOrEqual(8);
        expect(top).toBeGreaterThanOrEqual(8);
        expect(left + menu.width).toBeLessThanOrEqual(window.width - 8);
        expect(top + menu.height).toBeLessThanOrEqual(window.height - 8);
        const roomFor = hasRoom(box, menu, window);
        const onNote = left < box.right && left + menu.width > box.left && top < box.bottom && top + menu.height > box.top;
        if (roomFor) expect(onNote).toBe(false);
        if (!onNote) clear += 1;
      },
    ),
    { seed: 20261125, numRuns: 500 },
  );
  expect(clear).toBeGreaterThan(400);
});

/** Whether the menu fits on one of the four sides. */
function hasRoom({ left, right, top, bottom }: NoteBox, menu: Size, window: Size): boolean {
  return (
    bottom + menu.height + 16 <= window.height ||
    top - menu.height >= 16 ||
    right + menu.width + 32 <= window.width ||
    left - menu.width >= 32
  );
}
