import { html } from "lit";
import { guard } from "lit/directives/guard.js";
import { KEY_HELP } from "./key-acts.ts";

/** The page of keys. It never changes, so it is written once. */
export function keysPage() {
  return guard([], writtenPage);
}

function writtenPage() {
  return html`<h2>Keys on the grid</h2>
    <p>A dotted word in the right margin says how finely time is drawn. On a Mac, Ctrl is Command and Alt is Option.</p>
    <div class="columns">
      ${KEY_HELP.map(
        ({ about, keys }) => html`<section>
          <h3>${about}</h3>
          <dl>${keys.map((key) => html`<dt><kbd>${key.keys}</kbd></dt><dd>${key.does}</dd>`)}</dl>
        </section>`,
      )}
    </div>`;
}
