import type { PlayerId } from "../../src/ensemble/player.ts";
import type { ChanterNote } from "../../src/pipes/chanter-note.ts";
import type { PipeSetup } from "../../src/pipes/pipe-setup.ts";
import { type Blend, gainOf, levelOf, USUAL_BLEND, type VoiceKey } from "../../src/playback/blend.ts";
import type { ChanterSpan } from "../../src/playback/chanter-spans.ts";
import { type GroupToHear, heardGroup } from "../../src/playback/heard-group.ts";
import { type PlaySettings, scheduleOptions, soundAlike } from "../../src/playback/play-settings.ts";
import { type Schedule, scheduleOf } from "../../src/playback/schedule.ts";
import { barsOfStretch, momentAtSecond, placeAtSecond, playedBarAt, secondAtMoment, timelineOf } from "../../src/playback/timeline.ts";
import type { TuningTone } from "../../src/playback/tuning-tones.ts";
import type { Moment } from "../../src/score/address.ts";
import { concertLines } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { seconds } from "../../src/units/seconds.ts";
import { ticks } from "../../src/units/ticks.ts";
import { type TimeOf, timeOnClock } from "./audio-clock.ts";
import { BlendGraph } from "./blend-graph.ts";
import { GONE_AFTER, LoneSound, touchedNote } from "./lone-sound.ts";
import { SampleShelf } from "./sample-bank.ts";
import { limiterTo, type SoundContext, soundContextOf } from "./sound-context.ts";
import { SteadyTone } from "./steady-tone.ts";

/** What the player has to say while it plays. */
export interface PlayerNews {
  /** With every frame: the written moment that is heard now; null before the music begins. */
  readonly moved: (moment: Moment | null) => void;
  /** It has come to the end, or was stopped. */
  readonly stopped: () => void;
}

/** How long the first sound waits for recordings that are not there yet, in milliseconds; then synthetic voices begin, and recordings come in at a bar line. */
const WAITS_FOR_RECORDINGS = 1200;

/** From now to the first sound, in seconds: time to build the graph. */
const STARTS_IN = 0.08;

/** What sounds by itself begins this much after the touch, in seconds, since what is past cannot be written. */
const SOON = 0.01;

/**
 * The soonest a change of what is planned can be heard, in seconds: all of it is written by then, on a slow machine too. Tempo and loop are waited for;
 * an edit waits for a bar line anyhow.
 */
const CHANGES_IN = 0.1;
const EDITS_IN = 0.25;

/** An edit is first drawn, and then heard, in milliseconds; several at once are heard together. */
const FOLLOWS_IN = 40;

/** How far ahead is written, in seconds, and how often. A page in the background is woken once a second, or once a minute. */
const AHEAD = 5;
const AHEAD_IN_BACKGROUND = 90;
const WRITES_EVERY = 500;

/** A loop is laid out for at least so long, and laid out again in good time before that is over. */
const LOOP_SECONDS = 300;
const LOOP_MARGIN = 120;

/** A tuning tone is as loud as a player, against the whole. */
const TONE_LEVEL = 0.4;

/** How long fading out takes until the nodes can go. */
const FADED_AFTER = 200;

/** A schedule and what to add to its seconds to get the audio clock's time. */
interface Plan {
  readonly schedule: Schedule;
  readonly offset: number;
}

/** One playing, from pressing play to the end. */
interface Playing {
  readonly graph: BlendGraph;
  plan: Plan;
  /** What is heard until a time of the audio clock, while a change waits for its bar line. */
  before: { readonly plan: Plan; readonly until: number } | null;
  /** Where it was begun; the schedule is laid out from here where nothing is looped. */
  from: Moment;
  settings: PlaySettings;
  passes: number;
  readonly writing: ReturnType<typeof setInterval>;
  frame: number;
}

/**
 * Plays a score by its schedule: writes what comes ahead of time onto the audio clock, and goes on without a gap when score, tempo or loop
 * change. It must be made inside an act of the user; before, browsers let nothing sound.
 */
export class Player {
  readonly #news: PlayerNews;
  readonly #context: SoundContext<AudioContext>;
  readonly #output: AudioNode;
  readonly #shelf: SampleShelf;
  #blend: Blend = USUAL_BLEND;
  #score: Score;
  #playing: Playing | null = null;
  readonly #tones = new Set<SteadyTone>();
  /** Counts what was asked for. */
  #asked = 0;
  #following: ReturnType<typeof setTimeout> | null = null;
  /** What sounds outside any playing, and when, on the audio clock, the one before it is gone. */
  #alone: LoneSound | null = null;
  #quietFrom = 0;

  constructor(score: Score, blend: Blend, news: PlayerNews) {
    this.#news = news;
    this.#score = score;
    this.#blend = blend;
    this.#context = soundContextOf(new AudioContext({ latencyHint: "interactive" }));
    this.#output = limiterTo(this.#context, this.#context.native.destination);
    this.#shelf = new SampleShelf(this.#context.native, this.#followLater);
    void this.#shelf.load(playersIn(score));
    document.addEventListener("visibilitychange", this.#write);
  }

  /** Whether it plays. */
  get playing(): boolean {
    return this.#playing !== null;
  }

  /** Begins at a moment (at the loop's start, where one is set); what was playing is faded out. */
  async play(from: Moment, settings: PlaySettings): Promise<void> {
    this.#end();
    this.#asked += 1;
    const asked = this.#asked;
    await this.#context.native.resume();
    const waited = new Promise((over) => setTimeout(over, WAITS_FOR_RECORDINGS));
    await Promise.race([this.#shelf.load(playersIn(this.#score)), waited]);
    // Whoever asked last is the one who is heeded, and a stop asks too.
    if (asked !== this.#asked) return;
    const passes = this.#passes(settings);
    const schedule = this.#schedule(from, settings, passes);
    const graph = new BlendGraph(this.#context, this.#output, this.#score, this.#blend, this.#shelf.setFor);
    const offset = this.#context.native.currentTime + STARTS_IN;
    graph.follow(schedule, this.#score, 0, this.#time(offset));
    this.#playing = {
      graph,
      plan: { schedule, offset },
      before: null,
      from,
      settings,
      passes,
      writing: setInterval(this.#write, WRITES_EVERY),
      frame: requestAnimationFrame(this.#drawn),
    };
    this.#write();
  }

  /** Stops within a few hundredths of a second, without a click. */
  stop(): void {
    this.#asked += 1;
    if (this.#playing === null) return;
    this.#end();
    this.#news.moved(null);
    this.#news.stopped();
  }

  /** Another version of the score; heard from the next bar on, without a gap. */
  setScore(score: Score): void {
    const changed = score !== this.#score;
    this.#score = score;
    if (!changed) return;
    void this.#shelf.load(playersIn(score));
    this.#followLater();
  }

  /**
   * Another version of the score and other levels, heard from the next beat on without a gap (or as soon as can be): for comparing.
   * @returns where in the written music it is heard first; null where nothing plays
   */
  hear(score: Score, blend: Blend, when: "beat" | "soon"): Moment | null {
    this.#score = score;
    this.#blend = blend;
    void this.#shelf.load(playersIn(score));
    if (this.#playing === null) return null;
    return this.#follow({ settings: this.#playing.settings, at: when });
  }

  /** Tempo and loop; heard at once. The count-in is for the next time. */
  setSettings(settings: PlaySettings): void {
    const before = this.#playing?.settings;
    if (before === undefined) return;
    if (!soundAlike(settings, before)) this.#follow({ settings, at: "soon" });
  }

  /** Levels; heard at once. */
  setBlend(blend: Blend): void {
    this.#blend = blend;
    this.#playing?.graph.setBlend(blend);
  }

  /** Sounds a chanter note by itself, quietly, until the function given back is called (or a few seconds have passed). */
  soundNote(setup: PipeSetup, note: ChanterNote): () => void {
    return this.#soundAlone(touchedNote(setup, note));
  }

  /** Sounds gracenotes between their notes, once, quietly; the function given back ends it before. */
  soundGroup(group: GroupToHear): () => void {
    return this.#soundAlone(heardGroup(group));
  }

  /** Only one such sound is there at a time: what was heard before fades first. */
  #soundAlone(span: ChanterSpan): () => void {
    void this.#context.native.resume();
    this.#hush();
    const line = this.#score.lines.find((one) => one.kind === "pipes");
    const chanter = line === undefined ? 1 : gainOf(levelOf(this.#blend, { kind: "line", line: line.id }, this.#score));
    const start = Math.max(this.#context.native.currentTime + SOON, this.#quietFrom);
    const alone = new LoneSound(this.#context, this.#output, span, chanter * gainOf(this.#blend.master), start);
    this.#alone = alone;
    return () => {
      if (this.#alone === alone) this.#hush();
    };
  }

  /** Sounds a tone to tune to until the function given back is called. Whatever plays goes on. */
  soundTone(tone: TuningTone): () => void {
    void this.#context.native.resume();
    const steady = new SteadyTone(this.#context.native, this.#output, tone, gainOf(this.#blend.master) * TONE_LEVEL);
    this.#tones.add(steady);
    return () => {
      if (this.#tones.delete(steady)) steady.letGo();
    };
  }

  /** How strong each voice is now, decibels under full scale; empty while nothing plays. */
  get levels(): ReadonlyMap<VoiceKey, number> {
    return this.#playing?.graph.levels() ?? new Map();
  }

  /** The written moment that is heard now, or null. */
  get moment(): Moment | null {
    if (this.#playing === null) return null;
    const { plan, before } = this.#playing;
    const heard = before !== null && this.#heardTime < before.until ? before.plan : plan;
    return momentAtSecond(heard.schedule.timeline, this.#heardTime - heard.offset);
  }

  /** Ends everything and gives the sound device back. */
  async close(): Promise<void> {
    this.#end();
    this.#hush();
    for (const tone of this.#tones) tone.letGo();
    document.removeEventListener("visibilitychange", this.#write);
    await this.#context.native.close();
  }

  #hush(): void {
    if (this.#alone === null) return;
    this.#alone.letGo();
    this.#alone = null;
    this.#quietFrom = this.#context.native.currentTime + GONE_AFTER;
  }

  #end(): void {
    const playing = this.#playing;
    if (playing === null) return;
    this.#playing = null;
    clearInterval(playing.writing);
    cancelAnimationFrame(playing.frame);
    if (this.#following !== null) clearTimeout(this.#following);
    this.#following = null;
    playing.graph.fadeOut();
    setTimeout(() => playing.graph.dispose(), FADED_AFTER);
  }

  #time(offset: number): TimeOf {
    return timeOnClock(offset, this.#context.native.sampleRate);
  }

  #schedule(from: Moment, settings: PlaySettings, passes: number): Schedule {
    return scheduleOf(this.#score, { ...scheduleOptions(settings), passes, from });
  }

  #passes(settings: PlaySettings): number {
    if (settings.loop === null) return 1;
    const { frames } = this.#score;
    const once = timelineOf(frames, barsOfStretch(frames, settings.loop, 1), settings.tempoPercent, seconds(0));
    return Math.ceil(LOOP_SECONDS / Math.max(0.1, once.end));
  }

  /** The time of the audio clock whose sound leaves the loudspeaker now. */
  get #heardTime(): number {
    const { currentTime, outputLatency } = this.#context.native;
    return currentTime - (outputLatency || 0);
  }

  /** Goes over to what is there now, at the next bar; several reasons at once are one. */
  readonly #followLater = (): void => {
    if (this.#playing === null) return;
    if (this.#following !== null) clearTimeout(this.#following);
    this.#following = setTimeout(() => {
      this.#following = null;
      if (this.#playing !== null) this.#follow({ settings: this.#playing.settings, at: "bar" });
    }, FOLLOWS_IN);
  };

  readonly #write = (): void => {
    const playing = this.#playing;
    if (playing === null) return;
    const { schedule, offset } = playing.plan;
    if (playing.settings.loop !== null && this.#context.native.currentTime - offset > schedule.end - LOOP_MARGIN) {
      playing.passes *= 2;
      this.#follow({ settings: playing.settings, at: "bar" });
    }
    playing.graph.writeUntil(this.#horizon);
    this.#stopAtTheEnd(playing);
  };

  /** Up to when everything is written, on the audio clock: past the next time that somebody comes to write. */
  get #horizon(): number {
    return this.#context.native.currentTime + (document.hidden ? AHEAD_IN_BACKGROUND : AHEAD);
  }

  readonly #drawn = (): void => {
    const playing = this.#playing;
    if (playing === null) return;
    playing.frame = requestAnimationFrame(this.#drawn);
    this.#news.moved(this.moment);
    this.#stopAtTheEnd(playing);
  };

  #stopAtTheEnd({ plan }: Playing): void {
    if (this.#heardTime - plan.offset > plan.schedule.end + TAIL) this.stop();
  }

  /** Goes over to a new schedule at the same place of the music: at the next bar line or beat, or as soon as can be. Says where that is. */
  #follow({ settings, at }: { readonly settings: PlaySettings; readonly at: "bar" | "beat" | "soon" }): Moment | null {
    const playing = this.#playing;
    if (playing === null) return null;
    const { plan, graph } = playing;
    const leavesAt = (): number => {
      const soonest = this.#context.native.currentTime + (at === "bar" ? EDITS_IN : CHANGES_IN) - plan.offset;
      return at === "bar" ? nextBarFrom(plan.schedule, soonest) : at === "beat" ? nextBeatFrom(plan.schedule, soonest) : soonest;
    };
    if (settings.loop !== playing.settings.loop) {
      playing.passes = this.#passes(settings);
      const here = momentAtSecond(plan.schedule.timeline, leavesAt());
      playing.from = { bar: here?.bar ?? 0, at: ticks(0) };
    }
    playing.settings = settings;
    const schedule = this.#schedule(playing.from, settings, playing.passes);
    // Looked at only now: while a long score was laid out the clock went on.
    const leaves = leavesAt();
    const enters = sameSecond(plan.schedule, schedule, leaves);
    playing.before = { plan, until: plan.offset + leaves };
    playing.plan = { schedule, offset: plan.offset + leaves - enters };
    graph.follow(schedule, this.#score, enters, this.#time(playing.plan.offset));
    graph.setBlend(this.#blend);
    graph.writeUntil(this.#horizon);
    return momentAtSecond(schedule.timeline, enters);
  }
}

function playersIn(score: Score): readonly PlayerId[] {
  return concertLines(score).map(({ player }) => player);
}

/** How long after the end the last sounds die away. */
const TAIL = 0.3;

/** When the next bar begins at or after a second; that second itself where none does. */
function nextBarFrom({ timeline }: Schedule, second: number): number {
  const index = playedBarAt(timeline, second);
  const next = index === null ? timeline.bars[0] : timeline.bars[index + 1];
  return next !== undefined && next.start >= second ? next.start : second;
}

/** When the next beat comes at or after a second; that second itself where none does. */
function nextBeatFrom({ clicks }: Schedule, second: number): number {
  return clicks.find(({ at, countIn }) => at >= second && !countIn)?.at ?? second;
}

/** The second of the new schedule at which the music stands where the old one has it; its start where that place is not played any more. */
function sameSecond(before: Schedule, after: Schedule, second: number): number {
  if (second < before.timeline.start) return Math.max(0, after.timeline.start - (before.timeline.start - second));
  const place = placeAtSecond(before.timeline, second);
  if (place === null) return after.timeline.end + (second - before.timeline.end);
  const found = secondAtMoment(after.timeline, place, place.pass) ?? secondAtMoment(after.timeline, place);
  return found ?? after.timeline.start;
}
