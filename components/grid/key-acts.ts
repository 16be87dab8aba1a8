import { GRID_STEPS, type GridStep } from "./grid-step.ts";

/** A key as it was pressed. */
export interface KeyPress {
  readonly key: string;
  readonly shift: boolean;
  /** Control, or Command on a Mac. */
  readonly command: boolean;
  readonly alt: boolean;
}

/** Where the hand goes without changing anything. */
export type Going = "next" | "previous" | "next-bar" | "previous-bar" | "bar-start" | "bar-end" | "start" | "end";

/** What a key does on the grid. */
export type KeyAct =
  | { readonly kind: "go"; readonly to: Going; readonly stretching: boolean }
  | { readonly kind: "pitch"; readonly by: 1 | -1 }
  | { readonly kind: "length"; readonly by: 1 | -1 }
  | { readonly kind: "nudge"; readonly by: 1 | -1 }
  | { readonly kind: "letter"; readonly letter: "A" | "B" | "C" | "D" | "E" | "F" | "G"; readonly crossFingered: boolean }
  | { readonly kind: "step"; readonly step: GridStep }
  | {
      readonly kind:
        | "place"
        | "stretch"
        | "everything"
        | "split"
        | "tie"
        | "hold"
        | "strike-in"
        | "cut-off"
        | "gracenotes"
        | "grace-line"
        | "audition"
        | "delete"
        | "copy"
        | "cut"
        | "paste"
        | "duplicate"
        | "insert-bar"
        | "remove-bars"
        | "undo"
        | "redo"
        | "play"
        | "keys"
        | "let-go";
    };

/** A line of the page of keys. */
export interface KeyHelp {
  readonly keys: string;
  readonly does: string;
}

/** Every key of the grid, in the order they are learnt. "Ctrl" is Command on a Mac. */
export const KEY_HELP: readonly { readonly about: string; readonly keys: readonly KeyHelp[] }[] = [
  {
    about: "Write",
    keys: [
      { keys: "A to G", does: "a note, one step long; the nearer of two As or Gs" },
      { keys: "Shift C, F, G", does: "C natural, F natural, high G♯, where they speak" },
      { keys: "Enter", does: "a note on the row you are on" },
      { keys: "1 to 5", does: "draw in quarters, eighths, 16ths, 32nds, triplets" },
      { keys: ",", does: "gracenotes: what fits, drawn and heard" },
      { keys: ", then G, D, E, A", does: "that gracenote; a figure takes the one it numbers, 0 takes all away" },
      { keys: ", then /", does: "spell a group" },
    ],
  },
  {
    about: "Change the chosen note",
    keys: [
      { keys: "↑ ↓", does: "pitch" },
      { keys: "Shift ← →", does: "shorter, longer" },
      { keys: "Alt ← →", does: "earlier, later" },
      { keys: "/", does: "split" },
      { keys: "T", does: "tie to the next like note, or untie" },
      { keys: "[ ]", does: "strike-in, cut-off" },
      { keys: "H", does: "on a rest: hold the note before" },
      { keys: "V", does: "hear it in versions, and compare them" },
      { keys: "Delete", does: "delete" },
    ],
  },
  {
    about: "Move and choose",
    keys: [
      { keys: "← →", does: "one column" },
      { keys: "Page Up, Page Down", does: "one bar" },
      { keys: "Home, End", does: "the bar’s start, its last column; with Ctrl the sketch’s" },
      { keys: "S, then Shift ← →", does: "a stretch of time" },
      { keys: "Shift Home, End, Page Up, Page Down", does: "a stretch up to there" },
      { keys: "Ctrl A", does: "everything" },
      { keys: "Esc", does: "let go" },
      { keys: "Right button, Menu", does: "words for what is there" },
    ],
  },
  {
    about: "Stretches and bars",
    keys: [
      { keys: "Ctrl C, X, V", does: "copy, cut, paste" },
      { keys: "Ctrl D", does: "duplicate the bars" },
      { keys: ";", does: "grace the bars by rule, or the whole line" },
      { keys: "+", does: "insert a bar after this one" },
      { keys: "−", does: "remove the bars" },
      { keys: "Ctrl Z, Ctrl Shift Z", does: "undo, redo" },
      { keys: "Space", does: "play from here, or stop" },
      { keys: "?", does: "this page" },
    ],
  },
];

const GOING: Readonly<Record<string, Going>> = {
  ArrowRight: "next",
  ArrowLeft: "previous",
  PageDown: "next-bar",
  PageUp: "previous-bar",
  Home: "bar-start",
  End: "bar-end",
};

const WITH_COMMAND: Readonly<Record<string, KeyAct>> = {
  a: { kind: "everything" },
  c: { kind: "copy" },
  x: { kind: "cut" },
  v: { kind: "paste" },
  d: { kind: "duplicate" },
  z: { kind: "undo" },
  y: { kind: "redo" },
};

const PLAIN: Readonly<Record<string, KeyAct>> = {
  Enter: { kind: "place" },
  " ": { kind: "play" },
  Delete: { kind: "delete" },
  Backspace: { kind: "delete" },
  Escape: { kind: "let-go" },
  "/": { kind: "split" },
  ",": { kind: "gracenotes" },
  ";": { kind: "grace-line" },
  "[": { kind: "strike-in" },
  "]": { kind: "cut-off" },
  "+": { kind: "insert-bar" },
  "-": { kind: "remove-bars" },
  "?": { kind: "keys" },
  t: { kind: "tie" },
  v: { kind: "audition" },
  h: { kind: "hold" },
  s: { kind: "stretch" },
};

/**
 * What a key does; null for one that is not the grid's.
 *
 * @param note whether a single note is chosen: Shift with an arrow is then its length, and otherwise a stretch
 */
export function keyAct(press: KeyPress, note: boolean): KeyAct | null {
  const { key, shift, command, alt } = press;
  if (command) return commandAct(press);
  const going = GOING[key];
  if (going !== undefined) {
    const by = key === "ArrowRight" ? 1 : -1;
    const isArrow = key === "ArrowRight" || key === "ArrowLeft";
    if (alt) return isArrow ? { kind: "nudge", by } : null;
    if (shift && note && isArrow) return { kind: "length", by };
    return { kind: "go", to: going, stretching: shift };
  }
  if (alt) return null;
  if (key === "ArrowUp") return { kind: "pitch", by: 1 };
  if (key === "ArrowDown") return { kind: "pitch", by: -1 };
  const plain = PLAIN[key] ?? PLAIN[key.toLowerCase()];
  if (plain !== undefined) return plain;
  if (/^[a-gA-G]$/.test(key)) {
    return { kind: "letter", letter: key.toUpperCase() as "A", crossFingered: shift };
  }
  const step = GRID_STEPS.find((entry) => entry.key === key);
  return step === undefined ? null : { kind: "step", step: step.step };
}

function commandAct({ key, shift, alt }: KeyPress): KeyAct | null {
  if (alt) return null;
  if (key === "Home") return { kind: "go", to: "start", stretching: shift };
  if (key === "End") return { kind: "go", to: "end", stretching: shift };
  if (key === "ArrowRight") return { kind: "go", to: "next", stretching: shift };
  if (key === "ArrowLeft") return { kind: "go", to: "previous", stretching: shift };
  if (key.toLowerCase() === "z" && shift) return { kind: "redo" };
  return shift ? null : (WITH_COMMAND[key.toLowerCase()] ?? null);
}
