import { html, render } from "lit";
import type { Score } from "../../src/score/score.ts";
import { handOutFile } from "../session/sketch-file.ts";
import type { SoundMadeEvent } from "../sound/sound-files.ts";
import type { SoundDesk } from "./sound-desk.ts";

/**
 * Opens the hand-over. It shows pages, which are notation's, and offers sound, which is the sound room's; the rooms do not see each other, so all
 * are fetched here, when they are first asked for.
 */
export async function openHandOver(page: ShadowRoot | HTMLElement, score: Score, sound: SoundDesk): Promise<void> {
  await Promise.all([import("../handover/hand-over.ts"), import("../notation/print-pages.ts"), import("../sound/sound-files.ts")]);
  const dialog = page.querySelector("hand-over") ?? page.appendChild(document.createElement("hand-over"));
  dialog.score = score;
  const { blend, settings } = sound.manner;
  render(
    html`<sound-files slot="sound" .score=${score} .blend=${blend} .settings=${settings} @sound-made=${soundMade}></sound-files>`,
    dialog,
  );
  await dialog.show();
}

function soundMade({ detail: { name, file } }: SoundMadeEvent): void {
  handOutFile(name, file, file.type);
}
