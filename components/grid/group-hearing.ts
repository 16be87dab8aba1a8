import type { GroupToHear } from "../../src/playback/heard-group.ts";

/** A group is heard once the hand or the keys have rested on it for so long, in milliseconds, so that passing over is silent. */
export const RESTS = 140;

/** The same while a group is being spelled: a hand that types is not talked over. */
export const RESTS_IN_TYPING = 500;

/** Who is told that a group is to be heard, or with null that it is not any more. */
export type Listener = (group: GroupToHear | null) => void;

/** Lets one group at a time be heard: after a rest, once, until it is left. What was never heard is not silenced either. */
export class GroupHearing {
  readonly #listener: Listener;
  #key: string | null = null;
  #waiting: ReturnType<typeof setTimeout> | null = null;

  constructor(listener: Listener) {
    this.#listener = listener;
  }

  /**
   * The hand is on a group; what it was on before is left.
   * @param key tells it from others: the same one is not heard again until it has been left
   * @param rests how long the hand must stay, milliseconds
   */
  rest(key: string, group: GroupToHear, rests: number): void {
    if (key === this.#key) return;
    this.leave();
    this.#key = key;
    this.#waiting = setTimeout(() => {
      this.#waiting = null;
      this.#listener(group);
    }, rests);
  }

  /** The hand is on nothing. */
  readonly leave = (): void => {
    if (this.#key === null) return;
    this.#key = null;
    if (this.#waiting === null) this.#listener(null);
    else clearTimeout(this.#waiting);
    this.#waiting = null;
  };
}
