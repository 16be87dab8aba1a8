import { html, type ReactiveController, type ReactiveControllerHost } from "lit";
import type { Selection } from "../../src/editing/selection.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { type Blend, USUAL_BLEND } from "../../src/playback/blend.ts";
import { atTempo, type GroupToHear } from "../../src/playback/heard-group.ts";
import { type PlaySettings, stretchOfBars, USUAL_SETTINGS } from "../../src/playback/play-settings.ts";
import type { TuningTone } from "../../src/playback/tuning-tones.ts";
import type { Moment } from "../../src/score/address.ts";
import type { BarRange } from "../../src/score/edit.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import type { Session } from "../session/session.ts";
import { messageOf } from "../session/workspace.ts";
import type { ToneAskedEvent } from "../sound/blend-panel.ts";
import { loadPlayer } from "../sound/load-player.ts";
import type { Player } from "../sound/player.ts";

type Host = ReactiveControllerHost & { readonly renderRoot: ParentNode };

/**
 * Joins the session to the player: what plays, from where, how loud. The player is fetched the first time somebody asks for
 * sound; until then nothing of it is loaded and nothing can sound.
 */
export class SoundDesk implements ReactiveController {
  readonly #host: Host;
  #session: Session | null = null;
  #player: Player | null = null;
  #loading: Promise<Player> | null = null;
  #unsubscribe: (() => void) | null = null;
  #blend: Blend = USUAL_BLEND;
  #settings: PlaySettings = USUAL_SETTINGS;
  /** Why there is no sound, or an empty text. */
  #trouble = "";
  #state: "still" | "loading" | "playing" = "still";
  /** Counts requests to sound, so that a stop asked for while sound still loads is heeded. */
  #asked = 0;
  /** Counts what was pointed at, likewise. */
  #pointed = 0;
  #letGo: (() => void) | null = null;
  #auditioning = false;
  #tone: TuningTone | null = null;
  #endTone: (() => void) | null = null;

  constructor(host: Host) {
    this.#host = host;
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
    this.#endTone?.();
    this.#tone = null;
    this.#session = session;
    this.#blend = USUAL_BLEND;
    this.#settings = USUAL_SETTINGS;
    this.#player?.setBlend(this.#blend);
    this.#player?.setScore(session.shown);
    this.#unsubscribe = session.subscribe((change) => {
      if (!this.#auditioning && (change === "score" || change === "proposal")) this.#player?.setScore(session.shown);
    });
  }

  /** How it is played and how loud: what sound files are made with. */
  get manner(): { readonly blend: Blend; readonly settings: PlaySettings } {
    return { blend: this.#blend, settings: this.#settings };
  }

  /** The transport, for the header; `hand` is the bar the hand is at. */
  transport(session: Session, hand: number) {
    const { selection, shown: score } = session;
    return html`<transport-bar
      .score=${score}
      .playing=${this.#state === "playing"}
      .loading=${this.#state === "loading"}
      .moment=${session.moment}
      .here=${startOf(selection) ?? { bar: Math.min(hand, score.frames.length - 1), at: ticks(0) }}
      .chosen=${selection.kind === "stretch" ? selection : null}
      .settings=${this.#settings}
      .trouble=${this.#trouble}
      @play-asked=${this.playAsked}
      @stop-asked=${this.stop}
      @tempo-changed=${this.#settingChanged}
      @loop-changed=${this.#settingChanged}
      @count-in-changed=${this.#settingChanged}
      @manner-changed=${this.#settingChanged}
    ></transport-bar>`;
  }

  /** The levels, for the foot. */
  blend(session: Session) {
    return html`<blend-panel .score=${session.shown} .blend=${this.#blend} .tone=${this.#tone} @blend-changed=${this.#blendChanged} @tone-asked=${this.#toneAsked}></blend-panel>`;
  }

  readonly playAsked = async (event: CustomEvent<{ readonly from: Moment }>): Promise<void> => {
    await this.play(event.detail.from);
  };

  /** One key plays from where the hand is, and stops what plays. */
  readonly turnAsked = async (event: CustomEvent<{ readonly from: Moment }>): Promise<void> => {
    if (this.#state === "still") await this.play(event.detail.from);
    else this.stop();
  };

  /** Plays from a moment on. */
  async play(from: Moment): Promise<void> {
    const asked = ++this.#asked;
    const player = await this.#ready();
    if (player === null || asked !== this.#asked) return;
    await player.play(from, this.#settings);
    // A stop asked for while the sound device woke up has won.
    if (player.playing) this.#become("playing");
  }

  readonly stop = (): void => {
    this.#asked += 1;
    this.#player?.stop();
    this.#become("still");
  };

  /** Loops bars of a score that is no part of the session, for comparing versions. */
  async beginAudition(score: Score, range: BarRange): Promise<void> {
    this.#auditioning = true;
    const asked = ++this.#asked;
    const player = await this.#ready();
    if (player === null || asked !== this.#asked) return;
    const loop = stretchOfBars(score, range.first, range.last);
    player.setScore(score);
    await player.play(loop.from, { ...this.#settings, loop, countIn: false });
    if (player.playing) this.#become("playing");
  }

  /** Another version from the next beat on, or as soon as can be; where it is heard first. */
  hear(score: Score, when: "beat" | "soon"): Moment | null {
    return this.#player?.hear(score, this.#blend, when) ?? null;
  }

  /** The sketch again, and silence. */
  endAudition(): void {
    this.stop();
    this.#auditioning = false;
    if (this.#session !== null) this.#player?.setScore(this.#session.shown);
  }

  /** A row name is touched: its note sounds until it is let go. */
  async touch(setup: PipeSetup, note: ChanterNote): Promise<void> {
    this.release();
    const asked = ++this.#asked;
    const player = await this.#ready();
    if (player === null || asked !== this.#asked) return;
    this.#letGo = player.soundNote(setup, note);
  }

  /** Gracenotes are pointed at: they sound once between their notes, at the tempo in force. What plays is not talked over. */
  readonly groupTouched = async (event: CustomEvent<{ readonly group: GroupToHear }>): Promise<void> => {
    this.release();
    const pointed = ++this.#pointed;
    if (this.#state === "playing") return;
    const player = await this.#ready();
    if (player === null || pointed !== this.#pointed || player.playing) return;
    this.#letGo = player.soundGroup(atTempo(event.detail.group, this.#settings.tempoPercent));
  };

  /** They are not pointed at any more, also where sound is still loading. */
  readonly groupReleased = (): void => {
    this.#pointed += 1;
    this.release();
  };

  release(): void {
    this.#letGo?.();
    this.#letGo = null;
  }

  async #ready(): Promise<Player | null> {
    const session = this.#session;
    if (session === null) return null;
    if (this.#player !== null) return this.#player;
    this.#trouble = "";
    this.#become("loading");
    try {
      this.#loading ??= loadPlayer(session.shown, this.#blend, {
        moved: (moment) => {
          this.#session?.moveTo(moment);
          this.#showLevels();
        },
        stopped: () => {
          this.#become("still");
          this.#showLevels();
        },
      });
      this.#player = await this.#loading;
      this.#player.setBlend(this.#blend);
      if (this.#session !== null) this.#player.setScore(this.#session.shown);
      return this.#player;
    } catch (error) {
      this.#loading = null;
      this.#trouble = `Sound could not be started. ${messageOf(error)}`;
      return null;
    } finally {
      this.#become("still");
    }
  }

  /** The meters move with the sound, past Lit. */
  #showLevels(): void {
    this.#host.renderRoot.querySelector("blend-panel")?.showLevels(this.#player?.levels ?? new Map());
  }

  #become(state: "still" | "loading" | "playing"): void {
    if (state === this.#state) return;
    this.#state = state;
    this.#host.requestUpdate();
  }

  /** One tuning tone at a time; it goes on under what plays. */
  readonly #toneAsked = async ({ detail: { tone } }: ToneAskedEvent): Promise<void> => {
    this.#endTone?.();
    this.#endTone = null;
    this.#tone = tone;
    this.#host.requestUpdate();
    if (tone === null) return;
    const player = await this.#ready();
    if (this.#tone === tone) this.#endTone = player?.soundTone(tone) ?? null;
  };

  readonly #settingChanged = (event: CustomEvent<Partial<PlaySettings>>): void => {
    this.#settings = { ...this.#settings, ...event.detail };
    this.#player?.setSettings(this.#settings);
    this.#host.requestUpdate();
  };

  readonly #blendChanged = (event: CustomEvent<{ readonly blend: Blend }>): void => {
    this.#blend = event.detail.blend;
    this.#player?.setBlend(this.#blend);
    this.#host.requestUpdate();
  };
}

/** Where what is chosen begins, or null where nothing is. */
function startOf(selection: Selection): Moment | null {
  if (selection.kind === "note") return selection.at;
  return selection.kind === "stretch" ? selection.from : null;
}
