import type { GracenoteOffer } from "../../src/arranging/gracenote-offers.ts";
import type { PlainNote } from "../../src/pipes/chanter-note.ts";

/** What a key does in the choice of gracenotes. */
export type GracenoteKey =
  /** Puts this offer on the note. */
  | { readonly kind: "take"; readonly index: number }
  /** Goes to this offer, and lets it be heard. */
  | { readonly kind: "go"; readonly index: number }
  | { readonly kind: "take-away" }
  /** Goes to the field in which a group can be spelled. */
  | { readonly kind: "spell" };

/** The single gracenotes that have a letter of their own, by the key. */
const BY_LETTER: Readonly<Record<string, PlainNote>> = { g: "high-g", d: "d", e: "e", a: "high-a" };

/** How many offers can be taken by a figure. */
export const NUMBERED = 9;

/**
 * What a key does; null for one that does nothing here. Figures take the first nine, 0 takes all away, G D E and A take that gracenote where it
 * fits; any other letter goes to the next offer whose name begins so, and letters typed close together spell more of the name.
 *
 * @param here the offer the keys are on; -1 before they are on any
 * @param typed letters typed just before, in small letters
 */
export function gracenoteKey(key: string, offers: readonly GracenoteOffer[], here: number, typed: string): GracenoteKey | null {
  const { length } = offers;
  const to = (index: number): GracenoteKey | null => (length === 0 ? null : { kind: "go", index: (index + length) % length });
  if (key === "ArrowDown") return to(here + 1);
  if (key === "ArrowUp") return to(Math.max(0, here) - 1);
  if (key === "Home" || key === "PageUp") return to(0);
  if (key === "End" || key === "PageDown") return to(length - 1);
  if (key === "Enter" || (key === " " && typed === "")) return here >= 0 && here < length ? { kind: "take", index: here } : null;
  if (key === "0" || key === "Delete" || key === "Backspace") return { kind: "take-away" };
  if (key === "/" || key === "{") return { kind: "spell" };
  const figure = Number(key);
  if (Number.isInteger(figure) && figure >= 1 && figure <= Math.min(NUMBERED, length)) return { kind: "take", index: figure - 1 };
  if (!/^[a-z ]$/i.test(key)) return null;
  const letter = key.toLowerCase();
  const own = typed === "" ? singleIn(offers, BY_LETTER[letter]) : -1;
  if (own !== -1) return { kind: "take", index: own };
  const named = nextNamed(offers, here, typed + letter);
  return named === -1 ? null : { kind: "go", index: named };
}

/** The offer that is just this gracenote, or -1. */
function singleIn(offers: readonly GracenoteOffer[], gracenote: PlainNote | undefined): number {
  return offers.findIndex(({ gracenotes, further }) => gracenotes.length === 1 && gracenotes[0] === gracenote && further.length === 0);
}

/** The next offer from here on whose name, or one of its words, begins so; the one here last when a single letter asks for it again. */
function nextNamed(offers: readonly GracenoteOffer[], here: number, start: string): number {
  const first = start.length === 1 ? here + 1 : Math.max(0, here);
  const order = offers.map((_, step) => (first + step) % offers.length);
  const begins = (index: number) => offers[index]?.name.toLowerCase().startsWith(start) ?? false;
  const hasWord = (index: number) => offers[index]?.name.toLowerCase().includes(` ${start}`) ?? false;
  return order.find(begins) ?? order.find(hasWord) ?? -1;
}
