import type { ConcertSound } from "../../src/playback/concert-sounds.ts";
import type { PlayerTimbre } from "../../src/playback/player-timbre.ts";
import { oscillatorOf } from "./waves.ts";

/** A slot is free again so many time constants after its note ends: what is left of it is then 78 dB down. */
const RELEASES = 9;

/** How fast a note is faded that a change of the score takes away while it sounds: a time constant in seconds. By ear. */
const TAKEN_AWAY = 0.012;

/** After so many time constants of the attack a note counts as fully there. */
const ATTACKS = 4;

interface WrittenNote {
  readonly sound: ConcertSound;
  readonly start: number;
  readonly stop: number;
}

/** One oscillator and its gain, for one note after another. All times are the audio clock's. */
export class NoteSlot {
  readonly #oscillator: OscillatorNode;
  readonly #gain: GainNode;
  readonly #timbre: PlayerTimbre;
  #notes: WrittenNote[] = [];
  #freeFrom = 0;

  constructor(context: BaseAudioContext, output: AudioNode, timbre: PlayerTimbre) {
    this.#timbre = timbre;
    this.#oscillator = oscillatorOf(context, timbre.spectrum);
    this.#gain = new GainNode(context, { gain: 0 });
    this.#oscillator.connect(this.#gain).connect(output);
    this.#oscillator.start(context.currentTime);
  }

  /** When nothing is left of the last note written. */
  get freeFrom(): number {
    return this.#freeFrom;
  }

  /** Writes a note; the slot must be free by then. */
  begin(sound: ConcertSound, start: number, stop: number): void {
    this.#notes = [...this.#notes.filter((note) => note.stop > start - KEPT), { sound, start, stop }];
    this.#oscillator.frequency.setValueAtTime(sound.hertz, start);
    this.#gain.gain.setValueAtTime(0, start);
    this.#gain.gain.setTargetAtTime(1, start, this.#timbre.attack);
    this.#sustain(start, stop, start);
  }

  /** Takes back everything written for a time or later. The note that sounds then is left hanging and given back; null when there is none. */
  dropFrom(at: number): ConcertSound | null {
    this.#oscillator.frequency.cancelScheduledValues(at);
    this.#gain.gain.cancelScheduledValues(at);
    this.#notes = this.#notes.filter(({ start }) => start < at);
    const last = this.#notes.at(-1);
    this.#freeFrom = last === undefined ? 0 : last.stop + RELEASES * this.#timbre.release;
    return last !== undefined && last.stop > at ? last.sound : null;
  }

  /** Lets the hanging note go on until another time. */
  holdUntil(stop: number, from: number): void {
    const last = this.#notes.pop();
    if (last === undefined) return;
    this.#notes.push({ ...last, stop });
    this.#sustain(last.start, stop, from);
  }

  /** Fades the hanging note, if there is one. */
  takeAway(at: number): void {
    const last = this.#notes.at(-1);
    if (last === undefined || last.stop <= at) return;
    this.#notes[this.#notes.length - 1] = { ...last, stop: at };
    this.#gain.gain.setTargetAtTime(0, at, TAKEN_AWAY);
    this.#freeFrom = at + RELEASES * TAKEN_AWAY;
  }

  dispose(): void {
    this.#oscillator.stop();
    this.#gain.disconnect();
  }

  /** What comes after the attack, as far as it is not written yet. */
  #sustain(start: number, stop: number, from: number): void {
    const { attack, decay, sustain, release } = this.#timbre;
    const full = start + ATTACKS * attack;
    if (full >= from && full < stop) this.#gain.gain.setTargetAtTime(sustain, full, decay);
    this.#gain.gain.setTargetAtTime(0, stop, release);
    this.#freeFrom = stop + RELEASES * release;
  }
}

/** Notes that ended so long ago, in seconds, are forgotten: no change reaches back that far. */
const KEPT = 120;
