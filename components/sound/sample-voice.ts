import type { ConcertSound, PlayerSounds } from "../../src/playback/concert-sounds.ts";
import { timbreOf } from "../../src/playback/player-timbre.ts";
import { RECORDED_LEVEL, sampleAt } from "../../src/playback/samples.ts";
import { EFFECTIVE_VALUE } from "../../src/playback/spectrum.ts";
import type { TimeOf } from "./audio-clock.ts";
import type { BandVoice } from "./band-voice.ts";
import type { SampleSet } from "./sample-bank.ts";

/** Recordings are brought to the strength of the synthetic voices, so that a blend set with the one holds with the other. */
const LEVEL = EFFECTIVE_VALUE / RECORDED_LEVEL;

/** How a recorded note is let in: its own beginning is in the recording, so only a click is kept away. A time constant in seconds. */
const LET_IN = 0.001;

/** How fast a note is faded out that a change of the score takes away while it sounds, and one faded in that is joined in its middle: a time constant in seconds. By ear. */
const TAKEN_AWAY = 0.012;

/** After so many time constants nothing is heard any more: 78 dB down. */
const GONE = 9;

/** A note that is written on the audio clock. All times are the clock's. */
interface Written {
  readonly sound: ConcertSound;
  readonly start: number;
  stop: number;
  readonly source: AudioBufferSourceNode;
  readonly gain: GainNode;
}

/** A band player as recorded: every note is one buffer, gone round while it is held, at the speed that makes its pitch exact. */
export class SampleVoice implements BandVoice {
  readonly player: PlayerSounds["player"];
  readonly #context: BaseAudioContext;
  readonly #output: AudioNode;
  readonly #set: SampleSet;
  readonly #release: number;
  #written: Written[] = [];
  #sounds: readonly ConcertSound[] = [];
  #next = 0;
  #time: TimeOf = (second) => second;

  constructor(context: BaseAudioContext, output: AudioNode, player: PlayerSounds["player"], set: SampleSet) {
    this.#context = context;
    this.#output = output;
    this.player = player;
    this.#set = set;
    this.#release = timbreOf(player).release;
  }

  follow(sounds: readonly ConcertSound[], from: number, time: TimeOf): void {
    const at = time(from);
    this.writeUntil(at);
    this.#time = time;
    const goingOn = sounds.filter(({ start, stop }) => start < from && from < stop);
    for (const note of this.#written) {
      if (note.start >= at) this.#unwrite(note);
      else if (note.stop > at) {
        const index = goingOn.findIndex((sound) => sameNote(sound, note.sound));
        const [same] = index < 0 ? [] : goingOn.splice(index, 1);
        note.gain.gain.cancelScheduledValues(at);
        if (same === undefined) this.#end(note, at, TAKEN_AWAY);
        else this.#end(note, time(same.stop), this.#release);
      }
    }
    this.#written = this.#written.filter(({ start, stop }) => start < at && stop > at - KEPT);
    for (const sound of goingOn) this.#begin(sound, at, at - time(sound.start));
    this.#sounds = sounds.filter(({ start }) => start >= from);
    this.#next = 0;
  }

  writeUntil(until: number): void {
    for (; this.#next < this.#sounds.length; this.#next += 1) {
      const sound = this.#sounds[this.#next] as ConcertSound;
      const at = this.#time(sound.start);
      if (at > until) return;
      this.#begin(sound, at);
    }
  }

  dispose(): void {
    for (const note of this.#written) this.#unwrite(note);
    this.#written = [];
  }

  /** @param elapsed seconds of the note that are over already: it is joined where it would be by now */
  #begin(sound: ConcertSound, at: number, elapsed = 0): void {
    const { note, rate } = sampleAt(this.#set.instrument, sound.hertz);
    const recorded = this.#set.buffers.get(note);
    if (recorded === undefined) return;
    const { buffer, loop } = recorded;
    const source = new AudioBufferSourceNode(this.#context, {
      buffer,
      playbackRate: rate,
      ...(loop === null ? {} : { loop: true, loopStart: loop[0], loopEnd: loop[1] }),
    });
    const gain = new GainNode(this.#context, { gain: 0 });
    source.connect(gain).connect(this.#output);
    gain.gain.setValueAtTime(0, at);
    gain.gain.setTargetAtTime(LEVEL, at, elapsed > 0 ? TAKEN_AWAY : LET_IN);
    source.start(at, placeAfter(elapsed * rate, loop));
    source.onended = () => gain.disconnect();
    const written = { sound, start: at, stop: at, source, gain };
    this.#end(written, this.#time(sound.stop), this.#release);
    this.#written.push(written);
  }

  /** Lets a note end at a time. Said again, the last word counts. */
  #end(note: Written, stop: number, release: number): void {
    note.stop = stop;
    note.gain.gain.setTargetAtTime(0, stop, release);
    note.source.stop(stop + GONE * release);
  }

  #unwrite({ source, gain }: Written): void {
    source.stop();
    gain.disconnect();
  }
}

/** Where in a recording a note is after so many of its seconds, gone round as often as it has to. */
function placeAfter(place: number, loop: readonly [start: number, end: number] | null): number {
  if (loop === null || place < loop[1]) return place;
  return loop[0] + ((place - loop[0]) % (loop[1] - loop[0]));
}

/** Notes that ended so long ago, in seconds, are forgotten. */
const KEPT = 1;

function sameNote(one: ConcertSound, other: ConcertSound): boolean {
  return one.hertz === other.hertz && one.address.bar === other.address.bar && one.address.at === other.address.at;
}
