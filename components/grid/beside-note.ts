/** Where a note's ink is in the window, px. */
export interface NoteBox {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

/** How large something is, px. */
export interface Size {
  readonly width: number;
  readonly height: number;
}

/** How far a menu stays from its note and from the window's edge, px. */
const GAP = 8;

/** How far it stays from a note it stands beside: room for the ring at the note's end. */
const ASIDE = 24;

/**
 * Where a menu for a note goes: under it, or over it, or to its right, or to its left, the first that leaves the note in sight; in a window
 * that is too small for any of these, wherever all of it can be seen. Px from the window's left and top.
 */
export function besideNote(note: NoteBox, menu: Size, window: Size): { readonly left: number; readonly top: number } {
  const inside = (place: number, size: number, room: number) => Math.max(GAP, Math.min(room - size - GAP, place));
  const left = inside(note.left, menu.width, window.width);
  const top = inside((note.top + note.bottom - menu.height) / 2, menu.height, window.height);
  const under = note.bottom + GAP;
  const over = note.top - GAP - menu.height;
  const right = note.right + ASIDE;
  const leftward = note.left - ASIDE - menu.width;
  if (under + menu.height <= window.height - GAP) return { left, top: under };
  if (over >= GAP) return { left, top: over };
  if (right + menu.width <= window.width - GAP) return { left: right, top };
  if (leftward >= GAP) return { left: leftward, top };
  return { left, top };
}
