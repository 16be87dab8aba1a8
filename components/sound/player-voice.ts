import type { ConcertSound, PlayerSounds } from "../../src/playback/concert-sounds.ts";
import { timbreOf } from "../../src/playback/player-timbre.ts";
import type { TimeOf } from "./audio-clock.ts";
import type { BandVoice } from "./band-voice.ts";
import { NoteSlot } from "./note-slot.ts";

/**
 * A band player as long as no recording of the instrument is there. Each note takes a slot that is free by then; there are as many as sound together, tails included, since an oscillator for
 * each note costs time from the moment it exists, not from when it sounds.
 */
export class PlayerVoice implements BandVoice {
  readonly player: PlayerSounds["player"];
  readonly #context: BaseAudioContext;
  readonly #output: AudioNode;
  readonly #slots: NoteSlot[] = [];
  #sounds: readonly ConcertSound[] = [];
  #written = 0;
  #time: TimeOf = (second) => second;

  constructor(context: BaseAudioContext, output: AudioNode, player: PlayerSounds["player"]) {
    this.#context = context;
    this.#output = output;
    this.player = player;
  }

  follow(sounds: readonly ConcertSound[], from: number, time: TimeOf): void {
    const at = time(from);
    this.writeUntil(at);
    this.#time = time;
    const goingOn = sounds.filter(({ start, stop }) => start < from && from < stop);
    for (const slot of this.#slots) {
      const held = slot.dropFrom(at);
      const index = held === null ? -1 : goingOn.findIndex((sound) => sameNote(sound, held));
      const same = goingOn[index];
      if (same === undefined) slot.takeAway(at);
      else {
        slot.holdUntil(time(same.stop), at);
        goingOn.splice(index, 1);
      }
    }
    for (const sound of goingOn) this.#begin(sound, at);
    this.#sounds = sounds.filter(({ start }) => start >= from);
    this.#written = 0;
  }

  writeUntil(until: number): void {
    for (; this.#written < this.#sounds.length; this.#written += 1) {
      const sound = this.#sounds[this.#written] as ConcertSound;
      const at = this.#time(sound.start);
      if (at > until) return;
      this.#begin(sound, at);
    }
  }

  dispose(): void {
    for (const slot of this.#slots) slot.dispose();
  }

  #begin(sound: ConcertSound, at: number): void {
    let slot = this.#slots.find(({ freeFrom }) => freeFrom <= at);
    if (slot === undefined) {
      slot = new NoteSlot(this.#context, this.#output, timbreOf(this.player));
      this.#slots.push(slot);
    }
    slot.begin(sound, at, this.#time(sound.stop));
  }
}

function sameNote(one: ConcertSound, other: ConcertSound): boolean {
  return one.hertz === other.hertz && one.address.bar === other.address.bar && one.address.at === other.address.at;
}
