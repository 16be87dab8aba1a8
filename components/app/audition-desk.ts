import type { Address } from "../../src/score/address.ts";
import { pipeLineOf } from "../../src/score/line-of.ts";
import { eventAt } from "../../src/score/placed-events.ts";
import type { Session } from "../session/session.ts";
import type { AuditionKeptEvent, AuditionView } from "./audition-view.ts";
import type { SoundDesk } from "./sound-desk.ts";

/**
 * Opens the audition of the chosen pipe note over the sketch: fetched when it is first asked for. What is kept in it is one undo step each; what
 * sounds in it is no part of the session, so that leaving it leaves nothing behind.
 * @returns why there is nothing to audition, or an empty text
 */
export async function openAudition(page: ShadowRoot, session: Session, sound: SoundDesk): Promise<string> {
  if (session.proposal !== null) return "What you see is only proposed. Keep it or leave it, then compare.";
  const at = placeIn(session);
  if (at === null) return "Choose a note of the pipes first: it is heard in several ways.";
  await import("./audition-view.ts");
  page.querySelector("audition-view")?.remove();
  const view = page.appendChild(document.createElement("audition-view"));
  view.score = session.score;
  view.at = at;
  view.blend = sound.manner.blend;
  view.sound = {
    begin: (score, range) => sound.beginAudition(score, range),
    hear: (score, when) => sound.hear(score, when),
    stop: () => sound.stop(),
  };
  const forget = session.subscribe((change) => {
    if (change === "moment") view.moveTo(session.moment);
    if (change === "score") view.score = session.score;
  });
  view.addEventListener("audition-kept", (event) => {
    const { edits, label } = (event as AuditionKeptEvent).detail;
    session.apply(edits, label);
  });
  view.addEventListener("audition-left", () => leave(view, sound, forget), { once: true });
  await view.show();
  return "";
}

/** The chosen pipe note, or null. */
function placeIn({ selection, score }: Session): Address | null {
  const at = selection.kind === "note" ? selection.at : selection.kind === "stretch" ? { line: selection.line, ...selection.from } : null;
  if (at === null) return null;
  const bar = pipeLineOf(score, at.line)?.bars[at.bar];
  const placed = bar === undefined ? null : eventAt(bar, at.at);
  return placed?.event.kind === "note" ? { ...at, at: placed.at } : null;
}

function leave(view: AuditionView, sound: SoundDesk, forget: () => void): void {
  forget();
  sound.endAudition();
  view.remove();
}
