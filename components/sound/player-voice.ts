import type { ConcertSound, PlayerSounds } from "../../src/playback/concert-sounds.ts";
import { type PlayerTimbre, timbreOf } from "../../src/playback/player-timbre.ts";
import type { TimeOf } from "./audio-clock.ts";
import { oscillatorOf } from "./waves.ts";

/** A note is let go of after so many time constants of its release: it is then 78 dB down. */
const RELEASES = 9;

/** How fast a note is faded that a change of the score takes away while it sounds: a time constant in seconds. */
const TAKEN_AWAY = 0.012;

interface LiveNote {
  readonly sound: ConcertSound;
  readonly start: number;
  stop: number;
  readonly oscillator: OscillatorNode;
  readonly gain: GainNode;
}

/** A band player: an oscillator for each note. */
export class PlayerVoice {
  readonly #context: BaseAudioContext;
  readonly #output: AudioNode;
  readonly #timbre: PlayerTimbre;
  readonly player: PlayerSounds["player"];
  #sounds: readonly ConcertSound[] = [];
  #written = 0;
  #time: TimeOf = (second) => second;
  readonly #live = new Set<LiveNote>();

  constructor(context: BaseAudioContext, output: AudioNode, player: PlayerSounds["player"]) {
    this.#context = context;
    this.#output = output;
    this.player = player;
    this.#timbre = timbreOf(player);
  }

  /** From a second of the schedule on, these sounds. A note that sounds then and is still there goes on. */
  follow(sounds: readonly ConcertSound[], from: number, time: TimeOf): void {
    const at = time(from);
    this.writeUntil(at);
    this.#time = time;
    const ahead = sounds.findIndex(({ start }) => start >= from);
    this.#sounds = ahead === -1 ? [] : sounds.slice(ahead);
    this.#written = 0;
    const goingOn = (ahead === -1 ? sounds : sounds.slice(0, ahead)).filter(({ stop }) => stop > from);
    const kept = new Set<ConcertSound>();
    for (const note of this.#live) {
      if (note.stop <= at) continue;
      const same = note.start < at ? goingOn.find((sound) => !kept.has(sound) && sameNote(sound, note.sound)) : undefined;
      if (same === undefined) this.#takeAway(note, at);
      else {
        kept.add(same);
        this.#letGo(note, time(same.stop), at);
      }
    }
    for (const sound of goingOn) if (!kept.has(sound)) this.#begin(sound, at, time(sound.stop));
  }

  writeUntil(until: number): void {
    for (; this.#written < this.#sounds.length; this.#written += 1) {
      const sound = this.#sounds[this.#written] as ConcertSound;
      const at = this.#time(sound.start);
      if (at > until) return;
      this.#begin(sound, at, this.#time(sound.stop));
    }
  }

  dispose(): void {
    for (const { oscillator, gain } of this.#live) {
      oscillator.stop();
      gain.disconnect();
    }
    this.#live.clear();
  }

  #begin(sound: ConcertSound, start: number, stop: number): void {
    const { spectrum, attack, decay, sustain } = this.#timbre;
    const oscillator = oscillatorOf(this.#context, spectrum);
    oscillator.frequency.value = sound.hertz;
    const gain = new GainNode(this.#context, { gain: 0 });
    oscillator.connect(gain).connect(this.#output);
    const note: LiveNote = { sound, start, stop, oscillator, gain };
    this.#live.add(note);
    oscillator.onended = () => {
      this.#live.delete(note);
      gain.disconnect();
    };
    gain.gain.setValueAtTime(0, start);
    gain.gain.setTargetAtTime(1, start, attack);
    const full = start + 4 * attack;
    if (full < stop) gain.gain.setTargetAtTime(sustain, full, decay);
    oscillator.start(start);
    this.#letGo(note, stop, start);
  }

  /** Ends the note at a time; whatever was planned for its end before is dropped. */
  #letGo(note: LiveNote, stop: number, from: number): void {
    const { release } = this.#timbre;
    if (note.stop > from) note.gain.gain.cancelScheduledValues(Math.max(from, Math.min(note.stop, stop)));
    note.stop = stop;
    note.gain.gain.setTargetAtTime(0, stop, release);
    note.oscillator.stop(stop + RELEASES * release);
  }

  #takeAway(note: LiveNote, at: number): void {
    note.stop = at;
    if (note.start >= at) {
      note.gain.disconnect();
      note.oscillator.stop(at);
      return;
    }
    note.gain.gain.cancelScheduledValues(at);
    note.gain.gain.setTargetAtTime(0, at, TAKEN_AWAY);
    note.oscillator.stop(at + RELEASES * TAKEN_AWAY);
  }
}

function sameNote(one: ConcertSound, other: ConcertSound): boolean {
  return one.hertz === other.hertz && one.address.bar === other.address.bar && one.address.at === other.address.at;
}
