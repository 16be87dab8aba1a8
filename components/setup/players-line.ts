import { css, html, LitElement } from "lit";
import { PLAYERS, playerOf } from "../../src/ensemble/catalogue.ts";
import { doublingOctave } from "../../src/ensemble/doubling-octave.ts";
import { concertPitchOf } from "../../src/pipes/sounding.ts";
import type { Edit } from "../../src/score/edit.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { pipeLineOf, pipeLines } from "../../src/score/line-of.ts";
import type { ConcertLine, Line, PipeLine, Score } from "../../src/score/score.ts";
import { editsAsked } from "../shared/edits-asked.ts";
import { controls, focusRing } from "../shared/styles.ts";
import "../shared/filled-blank.ts";
import { panel } from "./panel-styles.ts";

/** A pipe line is to stand on the grid. */
export type LineChosenEvent = CustomEvent<{ readonly line: LineId }>;

const OCTAVES = [
  { octaves: 1, words: "an octave above" },
  { octaves: 0, words: "at the same pitch" },
  { octaves: -1, words: "an octave below" },
  { octaves: -2, words: "two octaves below" },
] as const;

/**
 * Who plays, as a sentence: each name opens what can be said of that player, and the last words bring in another.
 *
 * @fires edits-asked
 * @fires line-chosen when a pipe line is to stand on the grid
 */
export class PlayersLine extends LitElement {
  static override properties = { score: { attribute: false }, onGrid: { attribute: false } };

  declare score: Score;
  /** The pipe line that the grid shows. */
  declare onGrid: LineId;

  static override styles = [
    controls,
    focusRing,
    panel,
    css`
      :host {
        font: 400 15px/24px var(--serif);
        color: var(--ink-2);
      }
      .names {
        display: grid;
        grid-template-columns: repeat(auto-fill, minmax(150px, 1fr));
        gap: 4px 16px;
        max-inline-size: 400px;
      }
      .names .link {
        min-block-size: 28px;
      }
      .stack {
        display: grid;
        gap: 12px;
        justify-items: start;
      }
    `,
  ];

  override render() {
    const { lines } = this.score;
    const lead = lines.length === 1 ? "Only the pipes so far. " : "Playing: ";
    return html`${lead}${lines.length === 1 ? null : lines.map((line, index) => html`${index > 0 ? ", " : ""}${this.#name(line)}`)}${
      lines.length === 1 ? null : ". "
    }<filled-blank label="Add a player" words="Who else plays?"><div class="stack">
        <p class="say">Each starts by doubling the pipes; that can be changed for any bars.</p>
        <div class="names">${PLAYERS.map((player) => html`<button class="link" type="button" @click=${() => this.#add(player.id)}>${player.name}</button>`)}</div>
        <button class="link" type="button" @click=${this.#addPipes}>Another set of pipes</button>
      </div></filled-blank>${lines.length === 1 && lines[0] ? html` ${this.#name(lines[0])}` : null}`;
  }

  #name(line: Line) {
    return html`<filled-blank label="Player" words=${line.name}>${line.kind === "pipes" ? this.#pipes(line) : this.#concert(line)}</filled-blank>`;
  }

  #pipes(line: PipeLine) {
    const onlyPipes = pipeLines(this.score).length === 1;
    return html`<div class="stack">
      ${this.#rename(line)}
      ${
        line.id === this.onGrid
          ? html`<p class="say">This line stands on the grid.</p>`
          : html`<button class="link" type="button" @click=${() => this.#choose(line.id)}>Put this line on the grid</button>`
      }
      ${onlyPipes ? null : this.#removal(line)}
    </div>`;
  }

  #concert(line: ConcertLine) {
    const doubled = line.bars.find((bar) => bar.kind === "doubling");
    const pipes = pipeLines(this.score);
    const own = line.bars.filter((bar) => bar.kind === "own").length;
    const about =
      own === 0
        ? "Doubles the pipes throughout."
        : own === line.bars.length
          ? "Has a line of its own."
          : `Has its own notes in ${own} of ${line.bars.length} bars, and doubles the pipes in the rest.`;
    return html`<div class="stack">
      ${this.#rename(line)}
      <p class="say">${playerOf(line.player).name}. ${about}</p>
      ${pipes.map(
        (piper) => html`<div class="stack"><span class="cap">Double ${piper.name} in every bar,</span>
          <div class="names">${OCTAVES.map(
            ({ octaves, words }) =>
              html`<button class="link" type="button" aria-pressed=${doubled?.kind === "doubling" && own === 0 && doubled.of === piper.id && doubled.octaves === octaves ? "true" : "false"}
                @click=${() => this.#ask(`${line.name} doubling`, { kind: "double", line: line.id, range: this.#everyBar, of: piper.id, octaves })}>${words}</button>`,
          )}</div></div>`,
      )}
      ${
        own === line.bars.length
          ? null
          : html`<button class="link" type="button" @click=${() => this.#ask("notes of its own", { kind: "make-own", line: line.id, range: this.#everyBar })}>Turn what is doubled into notes of its own</button>`
      }
      ${this.#removal(line)}
    </div>`;
  }

  #rename(line: Line) {
    return html`<label class="field">Name on the part
      <input type="text" maxlength="60" .value=${line.name} @change=${(event: Event) => this.#renamed(line, event)} autocomplete="off" />
    </label>`;
  }

  #removal(line: Line) {
    return html`<button class="link" type="button" @click=${() => this.#ask(`${line.name} removed`, { kind: "remove-line", line: line.id })}>Remove ${line.name}</button>`;
  }

  get #everyBar() {
    return { first: 0, last: this.score.frames.length - 1 };
  }

  #renamed(line: Line, event: Event): void {
    const name = (event.target as HTMLInputElement).value.trim();
    if (name !== "" && name !== line.name) this.dispatchEvent(editsAsked("the name", { kind: "rename-line", line: line.id, name }));
  }

  #choose(line: LineId): void {
    this.dispatchEvent(new CustomEvent("line-chosen", { detail: { line } }) satisfies LineChosenEvent);
    this.#closeAll();
  }

  #add(id: string): void {
    const player = playerOf(id);
    const pipes = pipeLineOf(this.score, this.onGrid);
    if (pipes === null) return;
    const [lowest, highest] = [concertPitchOf(pipes.setup, "low-g"), concertPitchOf(pipes.setup, "high-a")];
    this.#ask(`${player.name} added`, {
      kind: "add-player",
      id: freshId(this.score, id),
      name: freshName(this.score, player.name),
      player: id,
      doubles: this.onGrid,
      octaves: doublingOctave(player, lowest, highest),
    });
  }

  readonly #addPipes = (): void => {
    const [first] = pipeLines(this.score);
    if (first === undefined) return;
    this.#ask("pipes added", {
      kind: "add-pipes",
      id: freshId(this.score, "pipes"),
      name: freshName(this.score, "Pipes"),
      setup: first.setup,
    });
  };

  #ask(label: string, edit: Edit): void {
    this.dispatchEvent(editsAsked(label, edit));
    this.#closeAll();
  }

  #closeAll(): void {
    for (const blank of this.renderRoot.querySelectorAll("filled-blank")) blank.hide();
  }
}

/** `fiddle`, then `fiddle-2`, `fiddle-3`. */
function freshId(score: Score, stem: string): LineId {
  for (let count = 1; ; count += 1) {
    const id = count === 1 ? stem : `${stem}-${count}`;
    if (!score.lines.some((line) => line.id === id)) return id;
  }
}

function freshName(score: Score, stem: string): string {
  for (let count = 1; ; count += 1) {
    const name = count === 1 ? stem : `${stem} ${count}`;
    if (!score.lines.some((line) => line.name === name)) return name;
  }
}

customElements.define("players-line", PlayersLine);

declare global {
  interface HTMLElementTagNameMap {
    "players-line": PlayersLine;
  }
}
