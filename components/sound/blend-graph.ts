import type { PlayerId } from "../../src/ensemble/player.ts";
import { type Blend, gainOf, levelOf, type Voice } from "../../src/playback/blend.ts";
import type { Schedule } from "../../src/playback/schedule.ts";
import { chanterTurns, steadyTurns } from "../../src/playback/turns.ts";
import type { LineId } from "../../src/score/line-id.ts";
import type { Score } from "../../src/score/score.ts";
import { amplitudeOf } from "../../src/units/decibels.ts";
import type { TimeOf } from "./audio-clock.ts";
import type { BandVoice } from "./band-voice.ts";
import { ChanterVoice } from "./chanter-voice.ts";
import { ClickVoice } from "./click-voice.ts";
import { DroneVoice } from "./drone-voice.ts";
import { PlayerVoice } from "./player-voice.ts";
import type { SampleSet } from "./sample-bank.ts";
import { SampleVoice } from "./sample-voice.ts";
import { inputOf, moveTo, type SoundContext, type Strip, stripTo } from "./sound-context.ts";

interface Pipes {
  readonly chanter: ChanterVoice;
  readonly chanterStrip: Strip;
  readonly drones: DroneVoice[];
  readonly dronesStrip: Strip;
}

interface Player {
  readonly voice: BandVoice;
  readonly strip: Strip;
}

/**
 * Everything that sounds in one playing: a voice and a strip for each line, all into one fader. It is built on whatever context it is given,
 * so what is heard and what is rendered are the same graph.
 */
export class BlendGraph {
  readonly #context: SoundContext;
  readonly #fader: Strip;
  readonly #clickStrip: Strip;
  readonly #countInStrip: Strip;
  readonly #click: ClickVoice;
  readonly #pipes = new Map<LineId, Pipes>();
  readonly #players = new Map<LineId, Player>();
  readonly #setFor: (player: PlayerId) => SampleSet | null;
  #blend: Blend;
  #score: Score;

  /** @param setFor the recordings of a player's instrument; null: it has a synthetic voice, until there are some at a later `follow` */
  constructor(
    context: SoundContext,
    output: AudioNode,
    score: Score,
    blend: Blend,
    setFor: (player: PlayerId) => SampleSet | null = () => null,
  ) {
    this.#context = context;
    this.#setFor = setFor;
    this.#score = score;
    this.#blend = blend;
    this.#fader = stripTo(context, output, gainOf(blend.master));
    this.#clickStrip = stripTo(context, this.#fader, gainOf(blend.click));
    this.#countInStrip = stripTo(context, this.#fader, amplitudeOf(blend.click.decibels));
    this.#click = new ClickVoice(context.native, inputOf(this.#clickStrip), inputOf(this.#countInStrip));
  }

  /** From a second of the schedule on, what it says; what was planned for later is dropped. Voices that go on sounding are not struck again. */
  follow(schedule: Schedule, score: Score, from: number, time: TimeOf): void {
    this.#score = score;
    const { sampleRate } = this.#context.native;
    const sample = Math.round(from * sampleRate);
    for (const { line, spans } of schedule.chanters) {
      const pipes = this.#pipesOf(line, () => chanterTurns(spans, sample, sampleRate));
      pipes.chanter.follow(spans, from, time);
      const sounds = schedule.drones.filter((drone) => drone.line === line);
      const makeDrone = ({ name, hertz }: DroneSound) =>
        new DroneVoice(this.#context.native, inputOf(pipes.dronesStrip), name, steadyTurns(hertz, sample, sampleRate));
      matched(pipes.drones, sounds, makeDrone).forEach(([voice, sound]) => {
        voice.follow(sound, from, time);
      });
    }
    for (const { line, player, sounds } of schedule.players) this.#playerOf(line, player, from, time).follow(sounds, from, time);
    this.#click.follow(schedule.clicks, from, time);
    this.#silenceThoseWhoLeft(schedule, from, time);
  }

  /** Writes everything that begins before a time of the audio clock. */
  writeUntil(until: number): void {
    for (const { chanter, drones } of this.#pipes.values()) {
      chanter.writeUntil(until);
      for (const drone of drones) drone.writeUntil(until);
    }
    for (const { voice } of this.#players.values()) voice.writeUntil(until);
    this.#click.writeUntil(until);
  }

  /** Other levels, at once and without a click. */
  setBlend(blend: Blend): void {
    this.#blend = blend;
    const move = (strip: Strip, gain: number) => moveTo(strip, gain, this.#context);
    move(this.#fader, gainOf(blend.master));
    move(this.#clickStrip, gainOf(blend.click));
    move(this.#countInStrip, amplitudeOf(blend.click.decibels));
    for (const [line, { chanterStrip, dronesStrip }] of this.#pipes) {
      move(chanterStrip, this.#gain({ kind: "line", line }));
      move(dronesStrip, this.#gain({ kind: "drones", line }));
    }
    for (const [line, { strip }] of this.#players) move(strip, this.#gain({ kind: "line", line }));
  }

  /** Fades everything out from now on; a few hundredths of a second later nothing is heard. */
  fadeOut(): void {
    moveTo(this.#fader, 0, this.#context);
  }

  /** Lets go of every node; fade out before. */
  dispose(): void {
    for (const { chanter, drones, chanterStrip, dronesStrip } of this.#pipes.values()) {
      chanter.dispose();
      for (const drone of drones) drone.dispose();
      chanterStrip.dispose();
      dronesStrip.dispose();
    }
    for (const { voice, strip } of this.#players.values()) {
      voice.dispose();
      strip.dispose();
    }
    this.#click.dispose();
    for (const strip of [this.#clickStrip, this.#countInStrip, this.#fader]) strip.dispose();
  }

  #gain(voice: Voice): number {
    return gainOf(levelOf(this.#blend, voice, this.#score));
  }

  #pipesOf(line: LineId, turns: () => number): Pipes {
    const known = this.#pipes.get(line);
    if (known !== undefined) return known;
    const chanterStrip = stripTo(this.#context, this.#fader, this.#gain({ kind: "line", line }));
    const dronesStrip = stripTo(this.#context, this.#fader, this.#gain({ kind: "drones", line }));
    const made: Pipes = {
      chanter: new ChanterVoice(this.#context.native, inputOf(chanterStrip), turns()),
      chanterStrip,
      drones: [],
      dronesStrip,
    };
    this.#pipes.set(line, made);
    return made;
  }

  #playerOf(line: LineId, player: PlayerId, from: number, time: TimeOf): BandVoice {
    const known = this.#players.get(line);
    const set = this.#setFor(player);
    const isRecorded = known?.voice instanceof SampleVoice;
    if (known?.voice.player === player && isRecorded === (set !== null)) return known.voice;
    known?.voice.follow([], from, time);
    const strip = known?.strip ?? stripTo(this.#context, this.#fader, this.#gain({ kind: "line", line }));
    const [native, output] = [this.#context.native, inputOf(strip)];
    const voice = set === null ? new PlayerVoice(native, output, player) : new SampleVoice(native, output, player, set);
    this.#players.set(line, { voice, strip });
    return voice;
  }

  #silenceThoseWhoLeft({ chanters, players }: Schedule, from: number, time: TimeOf): void {
    for (const [line, { chanter, drones }] of this.#pipes) {
      if (chanters.some((one) => one.line === line)) continue;
      chanter.follow([], from, time);
      for (const drone of drones) drone.follow(null, from, time);
    }
    for (const [line, { voice }] of this.#players) {
      if (!players.some((one) => one.line === line)) voice.follow([], from, time);
    }
  }
}

type DroneSound = Schedule["drones"][number];

/** Each drone voice with what it is to sound, by name and order; voices are added where they are too few, and silent where they are too many. */
function matched(
  voices: DroneVoice[],
  sounds: readonly DroneSound[],
  make: (sound: DroneSound) => DroneVoice,
): readonly (readonly [DroneVoice, DroneSound | null])[] {
  const free = new Set(voices);
  const pairs: (readonly [DroneVoice, DroneSound | null])[] = [];
  for (const sound of sounds) {
    let voice = [...free].find(({ name }) => name === sound.name);
    if (voice === undefined) {
      voice = make(sound);
      voices.push(voice);
    }
    free.delete(voice);
    pairs.push([voice, sound]);
  }
  for (const voice of free) pairs.push([voice, null]);
  return pairs;
}
