import { noteName } from "../pipes/note-names.ts";
import { shownPitch } from "../pitch/spelling.ts";
import type { Content, Edit } from "../score/edit.ts";

/** What an edit does, as it follows "Undo": `place low A`, `insert 4 bars`. */
export function editLabel(edit: Edit): string {
  switch (edit.kind) {
    case "place":
      return `place ${contentName(edit.content)}`;
    case "repitch":
      return `change to ${contentName(edit.content)}`;
    case "move":
      return `move ${contentName(edit.content)}`;
    case "resize":
      return "change the length";
    case "tie":
      return edit.tied ? "tie" : "untie";
    case "gracenotes":
      return edit.gracenotes.length === 0 ? "remove the gracenotes" : "add gracenotes";
    case "syllables":
      return edit.syllables.length === 0 ? "remove the words" : `write “${edit.syllables.map((syllable) => syllable.text).join(" / ")}”`;
    case "strike-in":
      return edit.on ? "mark a strike-in" : "remove the strike-in";
    case "cut-off":
      return edit.on ? "mark a cut-off" : "remove the cut-off";
    case "hold":
      return "hold through the rest";
    case "clear":
      return "delete";
    case "insert-bars":
      return `insert ${barCount(edit.count)}`;
    case "insert-clip":
      return `insert ${barCount(edit.clip.frames.length)}`;
    case "remove-bars":
      return `remove ${barCount(edit.range.last - edit.range.first + 1)}`;
    case "repeat":
      return edit.on ? "repeat" : "remove the repeat";
    case "add-pipes":
    case "add-player":
      return `add ${edit.name}`;
    case "remove-line":
      return "remove a line";
    case "move-band":
      return "move the band";
    case "make-own":
      return "make it a line of its own";
    case "split":
    case "paste":
    case "double":
      return edit.kind;
    default:
      return `change the ${FACTS[edit.kind]}`;
  }
}

/** What is changed by the edits that set one fact of the sketch. */
const FACTS = {
  title: "title",
  credits: "credits",
  "band-a": "band’s A",
  meter: "meter",
  pickup: "pickup",
  tempo: "tempo",
  key: "key",
  section: "section",
  tune: "tune",
  chords: "chords",
  ending: "ending",
  setup: "pipe setup",
  "rename-line": "name of the line",
} as const;

function contentName(content: Content): string {
  return content.kind === "pipes" ? noteName(content.note) : content.pitches.map(shownPitch).join(" ");
}

function barCount(count: number): string {
  return count === 1 ? "a bar" : `${count} bars`;
}
