import type { ChanterNote, PlainNote } from "../pipes/chanter-note.ts";
import { embellishmentInWords } from "../pipes/embellishment.ts";
import { embellishmentOf, embellishmentsBetween } from "../pipes/embellishments.ts";
import { fingeringTable } from "../pipes/fingering-table.ts";
import { asSentence, gracenoteInWords } from "../pipes/gracenote-words.ts";
import { type GroupRoom, groupSeconds, shortNote } from "../pipes/group-time.ts";
import { noteName } from "../pipes/note-names.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import type { BarsBack } from "./chanter-state.ts";
import type { Finding } from "./finding.ts";
import type { LocalFinding, Place } from "./local-finding.ts";

/** Gracenotes where they stand. */
export interface GracedNote extends BarsBack {
  readonly gracenotes: readonly PlainNote[];
  /** What sounds before them; null after silence. */
  readonly after: ChanterNote | null;
  readonly note: ChanterNote;
  readonly room: GroupRoom;
  /** What the note lasts at least, seconds: a cure has to fit into so much. */
  readonly least: number;
}

/** Gracenotes that leave too little of a note: more than half of it, or of the note before, which gives its time. Null where they have time. */
export function tooFast(graced: GracedNote, setup: PipeSetup): LocalFinding | null {
  const { gracenotes, room, barsBack, at } = graced;
  const short = gracenotes.length === 0 ? null : shortNote(gracenotes, room);
  if (short === null) return null;
  const takes = milliseconds(groupSeconds(gracenotes));
  const lasts = milliseconds(short === "note" ? room.note : (room.before ?? 0));
  const whose = short === "note" ? "this note lasts" : "the note before lasts";
  const cures = (place: Place): Finding["cures"] => curesFor(graced, setup, place);
  const [first] = cures(() => ({ line: "", bar: 0, at }));
  const cure = first === undefined ? "Make the note longer, or play slower." : `${first.label}.`;
  return {
    kind: "too-fast",
    barsBack,
    at,
    message: `${asSentence(groupInWords(graced))} takes ${takes}, and ${whose} ${lasts}: less than twice as long. ${cure}`,
    cures,
  };
}

/** The longest usual group that has time, then taking the gracenotes away; like notes keep something between them. */
function curesFor({ gracenotes, after, note, room, least, barsBack, at }: GracedNote, setup: PipeSetup, place: Place): Finding["cures"] {
  const sure = { ...room, note: least };
  const [longest] = embellishmentsBetween(fingeringTable(setup), { before: after, note })
    .map(({ embellishment }) => embellishment)
    .filter((one) => one.gracenotes.length < gracenotes.length && shortNote(one.gracenotes, sure) === null)
    .sort((one, other) => other.gracenotes.length - one.gracenotes.length);
  const graced = (label: string, instead: readonly PlainNote[]): Finding["cures"][number] => ({
    label,
    edits: [{ kind: "gracenotes", at: place(barsBack, at), gracenotes: instead }],
  });
  return [
    ...(longest === undefined
      ? []
      : [graced(`Play ${withArticle(longest.gracenotes, embellishmentInWords(longest.name))}`, longest.gracenotes)]),
    ...(after === note ? [] : [graced("Take it away", [])]),
  ];
}

/** `a doubling`, `a G gracenote`, `a group of 4`. */
function groupInWords({ gracenotes, after, note }: GracedNote): string {
  const known = embellishmentOf(gracenotes, { before: after, note });
  if (known !== null) return withArticle(gracenotes, embellishmentInWords(known.name));
  const [only, second] = gracenotes;
  return only !== undefined && second === undefined ? gracenoteInWords(only) : `a group of ${gracenotes.length}`;
}

function withArticle(gracenotes: readonly PlainNote[], name: string): string {
  const [first] = gracenotes;
  if (name === "strike" && first !== undefined) return `a strike to ${noteName(first)}`;
  return gracenotes.length === 1 && first !== undefined ? gracenoteInWords(first) : `a ${name}`;
}

function milliseconds(seconds: number): string {
  return `${Math.round(seconds * 1000)} ms`;
}
