import type { PlayerId } from "../../src/ensemble/player.ts";
import { type Blend, gainOf, heardGain, placeOf, type Voice, type VoiceKey, voiceKey } from "../../src/playback/blend.ts";
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
import { LevelMeter } from "./level-meter.ts";
import { PlayerVoice } from "./player-voice.ts";
import { Room } from "./room.ts";
import type { SampleSet } from "./sample-bank.ts";
import { SampleVoice } from "./sample-voice.ts";
import { inputOf, moveTo, type SoundContext, type Strip, stripTo } from "./sound-context.ts";
import { VoiceStrip } from "./voice-strip.ts";

interface Pipes {
  readonly chanter: ChanterVoice;
  readonly chanterStrip: VoiceStrip;
  readonly drones: DroneVoice[];
  readonly dronesStrip: VoiceStrip;
  /** Those that sound, as the schedule lists them. */
  heard: readonly DroneVoice[];
}

interface Player {
  readonly voice: BandVoice;
  readonly strip: VoiceStrip;
}

/**
 * Everything that sounds in one playing: a voice and a strip for each line, all into one fader. It is built on whatever context it is given,
 * so what is heard and what is rendered are the same graph.
 *
 * ```
 * voices ─▶ level, place ─┬──────────┬─▶ fader ─▶ output
 *                         └─▶ room ──┤
 * clicks ────────────────────────────┘
 * ```
 */
export class BlendGraph {
  readonly #context: SoundContext;
  readonly #fader: Strip;
  #meter: LevelMeter | null = null;
  readonly #voices: GainNode;
  readonly #room: Room;
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
    this.#voices = new GainNode(context.native);
    this.#voices.connect(inputOf(this.#fader));
    this.#room = new Room(context.native, inputOf(this.#fader), blend.room);
    this.#voices.connect(this.#room.input);
    this.#clickStrip = stripTo(context, this.#fader, this.#gain({ kind: "click" }));
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
        new DroneVoice(this.#context.native, pipes.dronesStrip.input, name, steadyTurns(hertz, sample, sampleRate));
      const pairs = matched(pipes.drones, sounds, makeDrone);
      for (const [voice, sound] of pairs) voice.follow(sound, from, time);
      pipes.heard = pairs.flatMap(([voice, sound]) => (sound === null ? [] : [voice]));
      this.#silenceDrones(line, pipes);
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

  /** Other levels and places, at once and without a click. */
  setBlend(blend: Blend): void {
    this.#blend = blend;
    const move = (strip: Strip, gain: number) => moveTo(strip, gain, this.#context);
    move(this.#fader, gainOf(blend.master));
    move(this.#clickStrip, this.#gain({ kind: "click" }));
    move(this.#countInStrip, amplitudeOf(blend.click.decibels));
    this.#room.set(blend.room);
    const set = (strip: VoiceStrip, voice: Voice) => strip.set(this.#gain(voice), this.#place(voice));
    for (const [line, pipes] of this.#pipes) {
      set(pipes.chanterStrip, { kind: "line", line });
      set(pipes.dronesStrip, { kind: "drones", line });
      this.#silenceDrones(line, pipes);
    }
    for (const [line, { strip }] of this.#players) set(strip, { kind: "line", line });
  }

  /** How strong each voice is now, and all of them together, decibels under full scale. */
  levels(): ReadonlyMap<VoiceKey, number> {
    this.#meter ??= new LevelMeter(this.#context.native, inputOf(this.#fader));
    const levels = new Map<VoiceKey, number>([[voiceKey({ kind: "master" }), this.#meter.peak]]);
    for (const [line, { chanterStrip, dronesStrip }] of this.#pipes) {
      levels.set(voiceKey({ kind: "line", line }), chanterStrip.peak);
      levels.set(voiceKey({ kind: "drones", line }), dronesStrip.peak);
    }
    for (const [line, { strip }] of this.#players) levels.set(voiceKey({ kind: "line", line }), strip.peak);
    return levels;
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
    this.#meter?.dispose();
    this.#room.dispose();
    this.#voices.disconnect();
    for (const strip of [this.#clickStrip, this.#countInStrip, this.#fader]) strip.dispose();
  }

  #gain(voice: Voice): number {
    return heardGain(this.#blend, voice, this.#score);
  }

  #place(voice: Voice): number {
    return placeOf(this.#blend, voice, this.#score);
  }

  #strip(voice: Voice): VoiceStrip {
    return new VoiceStrip(this.#context.native, this.#voices, this.#gain(voice), this.#place(voice));
  }

  #silenceDrones(line: LineId, { heard }: Pipes): void {
    const silent = this.#blend.silentDrones[line] ?? [];
    for (const [place, drone] of heard.entries()) drone.setSilent(silent.includes(place));
  }

  #pipesOf(line: LineId, turns: () => number): Pipes {
    const known = this.#pipes.get(line);
    if (known !== undefined) return known;
    const chanterStrip = this.#strip({ kind: "line", line });
    const dronesStrip = this.#strip({ kind: "drones", line });
    const made: Pipes = {
      chanter: new ChanterVoice(this.#context.native, chanterStrip.input, turns()),
      chanterStrip,
      drones: [],
      dronesStrip,
      heard: [],
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
    const strip = known?.strip ?? this.#strip({ kind: "line", line });
    const [native, output] = [this.#context.native, strip.input];
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
