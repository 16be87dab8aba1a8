import { html, type ReactiveController, type ReactiveControllerHost } from "lit";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { type PlaySettings, USUAL_SETTINGS } from "../../src/playback/play-settings.ts";
import type { Moment } from "../../src/score/address.ts";
import { ticks } from "../../src/units/ticks.ts";
import type { Session } from "../session/session.ts";
import { messageOf } from "../session/workspace.ts";
import { loadPlayer } from "../sound/load-player.ts";
import type { Player } from "../sound/player.ts";

const THE_START: Moment = { bar: 0, at: ticks(0) };

/**
 * Joins the session to the player: what plays, from where, how loud. The player is fetched the first time somebody asks for
 * sound; until then nothing of it is loaded and nothing can sound.
 */
export class SoundDesk implements ReactiveController {
  readonly #host: ReactiveControllerHost;
  readonly #tell: (words: string) => void;
  #session: Session | null = null;
  #player: Player | null = null;
  #loading: Promise<Player> | null = null;
  #unsubscribe: (() => void) | null = null;
  #blend: Blend = USUAL_BLEND;
  #settings: PlaySettings = USUAL_SETTINGS;
  #state: "still" | "loading" | "playing" = "still";
  /** Counts requests to sound, so that a stop asked for while sound still loads is heeded. */
  #asked = 0;
  #letGo: (() => void) | null = null;

  /** @param tell shows a sentence to the user */
  constructor(host: ReactiveControllerHost, tell: (words: string) => void) {
    this.#host = host;
    this.#tell = tell;
    host.addController(this);
  }

  hostDisconnected(): void {
    this.#unsubscribe?.();
    this.#letGo?.();
    void this.#player?.close();
    this.#player = null;
    this.#loading = null;
  }

  /** Another sketch is open: what played stops; levels begin as usual. */
  take(session: Session): void {
    this.stop();
    this.#unsubscribe?.();
    this.#session = session;
    this.#blend = USUAL_BLEND;
    this.#settings = USUAL_SETTINGS;
    this.#player?.setBlend(this.#blend);
    this.#player?.setScore(session.score);
    this.#unsubscribe = session.subscribe((change) => {
      if (change === "score") this.#player?.setScore(session.score);
    });
  }

  /** The transport, for the header. */
  transport(session: Session) {
    return html`<transport-bar
      .score=${session.score}
      .state=${this.#state}
      .settings=${this.#settings}
      .selection=${session.selection}
      @play-asked=${this.playAsked}
      @stop-asked=${this.stop}
      @settings-changed=${this.#settingsChanged}
    ></transport-bar>`;
  }

  /** The levels, for the foot. */
  blend(session: Session) {
    return html`<blend-panel .score=${session.score} .blend=${this.#blend} @blend-changed=${this.#blendChanged}></blend-panel>`;
  }

  readonly playAsked = async (event: CustomEvent<{ readonly from: Moment | null }>): Promise<void> => {
    await this.play(event.detail.from ?? this.#startOfChoice());
  };

  /** Plays from a moment on. */
  async play(from: Moment): Promise<void> {
    const asked = ++this.#asked;
    const player = await this.#ready();
    if (player === null || asked !== this.#asked) return;
    await player.play(from, this.#settings);
    this.#become("playing");
  }

  readonly stop = (): void => {
    this.#asked += 1;
    this.#player?.stop();
    this.#become("still");
  };

  /** A row name is touched: its note sounds until it is let go. */
  async touch(setup: PipeSetup, note: ChanterNote): Promise<void> {
    this.release();
    const asked = ++this.#asked;
    const player = await this.#ready();
    if (player === null || asked !== this.#asked) return;
    this.#letGo = player.soundNote(setup, note);
  }

  release(): void {
    this.#letGo?.();
    this.#letGo = null;
  }

  #startOfChoice(): Moment {
    const selection = this.#session?.selection;
    if (selection?.kind === "note") return { bar: selection.at.bar, at: ticks(0) };
    if (selection?.kind === "stretch") return selection.from;
    return THE_START;
  }

  async #ready(): Promise<Player | null> {
    const session = this.#session;
    if (session === null) return null;
    if (this.#player !== null) return this.#player;
    this.#become("loading");
    try {
      this.#loading ??= loadPlayer(session.score, this.#blend, {
        moved: (moment) => this.#session?.moveTo(moment),
        stopped: () => this.#become("still"),
      });
      this.#player = await this.#loading;
      this.#player.setBlend(this.#blend);
      if (this.#session !== null) this.#player.setScore(this.#session.score);
      return this.#player;
    } catch (error) {
      this.#loading = null;
      this.#tell(`Sound could not be started. ${messageOf(error)}`);
      return null;
    } finally {
      this.#become("still");
    }
  }

  #become(state: "still" | "loading" | "playing"): void {
    if (state === this.#state) return;
    this.#state = state;
    this.#host.requestUpdate();
  }

  readonly #settingsChanged = (event: CustomEvent<{ readonly settings: PlaySettings }>): void => {
    this.#settings = event.detail.settings;
    this.#player?.setSettings(this.#settings);
    this.#host.requestUpdate();
  };

  readonly #blendChanged = (event: CustomEvent<{ readonly blend: Blend }>): void => {
    this.#blend = event.detail.blend;
    this.#player?.setBlend(this.#blend);
    this.#host.requestUpdate();
  };
}
