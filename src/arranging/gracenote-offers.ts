import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import type { Embellishment, EmbellishmentPlacement } from "../pipes/embellishment.ts";
import { embellishmentsBetween } from "../pipes/embellishments.ts";
import { type Figure, figureInWords, figuresAt } from "../pipes/figures.ts";
import { fingeringTable } from "../pipes/fingering-table.ts";
import { movementsOf } from "../pipes/gracenote-group.ts";
import { lettersOfGracenotes } from "../pipes/gracenote-letters.ts";
import { GRACENOTE_SECONDS } from "../pipes/gracenote-seconds.ts";
import { noteName } from "../pipes/note-names.ts";
import type { SourceMark } from "../pipes/source-mark.ts";
import type { Address } from "../score/address.ts";
import { pipeLineOf } from "../score/line-of.ts";
import type { PipeLine, Score } from "../score/score.ts";
import { type Seconds, seconds } from "../units/seconds.ts";
import { fittingGroups, hasTime } from "./fitting-groups.ts";
import { type GracePlace, notesBefore } from "./grace-place.ts";
import { gracePlaceAt, placesAfter } from "./grace-place-at.ts";
import { groupInWords } from "./named-group.ts";

/** What a figure puts on a note after the first one. */
export interface FurtherGracenotes {
  readonly address: Address;
  readonly note: ChanterNote;
  readonly gracenotes: readonly PlainNote[];
  /** How long that note lasts, seconds. */
  readonly seconds: number;
}

/** Gracenotes that may be put on a note. */
export interface GracenoteOffer {
  /** As it stands in a sentence: `light throw`. */
  readonly name: string;
  /** In letters, `{Gdc}`; a figure's with its notes, `{g}B {d}B {e}B`. */
  readonly spelling: string;
  /** In the order they are played. */
  readonly gracenotes: readonly PlainNote[];
  readonly placement: EmbellishmentPlacement;
  /** How long all of it takes where there is room, seconds; of a figure, what its first note has. */
  readonly seconds: Seconds;
  /** How far the spelling is vouched for, and by whom in words that can be shown. */
  readonly mark: SourceMark;
  readonly source: string;
  /** What goes with it on the notes that follow: GDE and tachum span several. Empty otherwise. */
  readonly further: readonly FurtherGracenotes[];
}

/** A note, and what can be put on it. */
export interface GracenoteChoice {
  readonly line: PipeLine;
  readonly place: GracePlace;
  /** Exactly what fits, the most usual first. */
  readonly offers: readonly GracenoteOffer[];
  /** Why nothing fits, in a sentence; null where something does. */
  readonly whyNone: string | null;
}

/** What can be put on the note at a place, or on the note it is tied to; null where no pipe note is. As quick in a long line as in a short one. */
export function gracenoteChoiceAt(score: Score, address: Address): GracenoteChoice | null {
  const line = pipeLineOf(score, address.line);
  const place = line === null ? null : gracePlaceAt(score, line, address);
  if (line === null || place === null) return null;
  const offers = inOrder(fittingGroups(line.setup, place).map(offerOf), figuresFrom(score, line, place));
  return { line, place, offers, whyNone: offers.length > 0 ? null : whyNothingFits(line, place) };
}

/** Exactly what fits on the note at a place, or on the note it is tied to; the most usual first. None where no pipe note is. */
export function offersFor(score: Score, address: Address): readonly GracenoteOffer[] {
  return gracenoteChoiceAt(score, address)?.offers ?? [];
}

function offerOf(embellishment: Embellishment): GracenoteOffer {
  const { gracenotes, placement, mark, source } = embellishment;
  return {
    name: groupInWords(embellishment),
    spelling: lettersOfGracenotes(gracenotes),
    gracenotes,
    placement,
    seconds: seconds(gracenotes.length * GRACENOTE_SECONDS),
    mark,
    source,
    further: [],
  };
}

/** Figures come after the single gracenotes and before the groups, as they are learnt. */
function inOrder(offers: readonly GracenoteOffer[], figures: readonly GracenoteOffer[]): readonly GracenoteOffer[] {
  const groups = offers.findIndex(({ gracenotes }) => gracenotes.length > 1);
  const at = groups === -1 ? offers.length : groups;
  return [...offers.slice(0, at), ...figures, ...offers.slice(at)];
}

/** No figure is longer than so many notes. */
const LONGEST_FIGURE = 3;

function figuresFrom(score: Score, line: PipeLine, place: GracePlace): readonly GracenoteOffer[] {
  const places = [place, ...placesAfter(score, line, place, LONGEST_FIGURE - 1)];
  return figuresAt(places.map(({ note }) => note.note))
    .filter((figure) => fits(line, figure, places))
    .map((figure) => figureOffer(figure, places));
}

/** Whether each gracenote of a figure can be fingered, whichever way playing reaches its note, and each note has time for its own. */
function fits(line: PipeLine, figure: Figure, places: readonly GracePlace[]): boolean {
  const table = fingeringTable(line.setup);
  return figure.notes.every(({ note, gracenotes, length }, index) => {
    const place = places[index] as GracePlace;
    const next = places[index + 1];
    const isShort = length !== "short" || next === undefined || place.seconds < next.seconds;
    return (
      isShort &&
      notesBefore(place).every((before) => movementsOf(table, gracenotes, { before, note }).ok) &&
      hasTime(place, { gracenotes, placement: "on-beat" })
    );
  });
}

function figureOffer(figure: Figure, places: readonly GracePlace[]): GracenoteOffer {
  const [first, ...others] = figure.notes;
  const gracenotes = first?.gracenotes ?? [];
  return {
    name: figureInWords(figure),
    spelling: figure.notes.map((one) => `${lettersOfGracenotes(one.gracenotes)}${noteName(one.note)}`).join(" "),
    gracenotes,
    placement: "on-beat",
    seconds: seconds(gracenotes.length * GRACENOTE_SECONDS),
    mark: figure.mark,
    source: figure.source,
    further: others.map(({ note, gracenotes: own }, index) => {
      const place = places[index + 1] as GracePlace;
      return { address: place.address, note, gracenotes: own, seconds: place.seconds };
    }),
  };
}

function whyNothingFits({ setup }: PipeLine, place: GracePlace): string {
  const table = fingeringTable(setup);
  const { note } = place.note;
  const befores = notesBefore(place);
  const after = (before: ChanterNote | null) => (before === null ? "silence" : noteName(before));
  const bare = befores.find((before) => embellishmentsBetween(table, { before, note }).length === 0);
  if (bare !== undefined) return `As you finger them, no gracenote can be heard between ${after(bare)} and ${noteName(note)}.`;
  const parted = befores.length > 1 && !fitsWithTime(setup, place);
  if (parted)
    return `A repeat leads here from ${befores.map(after).join(" and from ")}, and no gracenotes can be fingered after each of them.`;
  const needed = Math.round(2000 * GRACENOTE_SECONDS);
  return `This note lasts ${Math.round(place.seconds * 1000)} ms at the tempo in force. Even one gracenote wants ${needed} ms of it.`;
}

/** Whether something would fit if the note were longer. */
function fitsWithTime(setup: PipeLine["setup"], place: GracePlace): boolean {
  const long = {
    ...place,
    seconds: Number.POSITIVE_INFINITY,
    before: place.before.map((one) => one && { ...one, seconds: Number.POSITIVE_INFINITY }),
  };
  return fittingGroups(setup, long).length > 0;
}
