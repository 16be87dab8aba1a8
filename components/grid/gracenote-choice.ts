import { html } from "lit";
import type { ChanterNote, PlainNote } from "../../src/pipes/chanter-note.ts";
import { gracenotesInReach, LIFTED_GRACENOTES } from "../../src/pipes/gracenotes-in-reach.ts";
import { noteName } from "../../src/pipes/note-names.ts";

/** How each gracenote is called and which key it has. */
const NAMES: Readonly<Record<(typeof LIFTED_GRACENOTES)[number], { readonly words: string; readonly key: string }>> = {
  "high-g": { words: "G", key: "g" },
  d: { words: "D", key: "d" },
  e: { words: "E", key: "e" },
  "high-a": { words: "A", key: "a" },
};

/** The gracenotes a key asks for: one, none for 0 or Delete; null for any other key. */
export function gracenotesOfKey(key: string): readonly PlainNote[] | null {
  if (key === "0" || key === "Delete" || key === "Backspace") return [];
  const found = LIFTED_GRACENOTES.find((note) => NAMES[note].key === key.toLowerCase());
  return found === undefined ? null : [found];
}

/** The choice of gracenotes for a note; those that no finger can play on it are shown, but not to be had. */
export function gracenoteChoice(note: ChanterNote, now: readonly PlainNote[], choose: (gracenotes: readonly PlainNote[]) => void) {
  const inReach = gracenotesInReach(note);
  return html`<p class="cap">Gracenote on ${noteName(note)}</p>
    <div class="row">
      ${LIFTED_GRACENOTES.map(
        (gracenote) => html`<button
          type="button"
          aria-pressed=${now.length === 1 && now[0] === gracenote ? "true" : "false"}
          aria-label=${`${NAMES[gracenote].words} gracenote`}
          ?disabled=${!inReach.includes(gracenote)}
          @click=${() => choose([gracenote])}
        >${NAMES[gracenote].words}</button>`,
      )}
      <button type="button" aria-label="No gracenote" @click=${() => choose([])}>none</button>
    </div>`;
}
