/* What is written onto the audio clock, seen from outside: nothing here knows the player. */

/** One thing that was told to happen at a time. */
export interface WrittenEvent {
  /** `setValueAtTime`, `start` …: who was told. */
  readonly by: string;
  /** When it is to happen, and when that was said; seconds of the audio clock. */
  readonly at: number;
  readonly said: number;
}

/** Watches everything that is written for a time of the clock, until it is told to end. What is to happen at once is told by its time: the clock's own. */
export interface ClockWatch {
  readonly events: readonly WrittenEvent[];
  readonly end: () => void;
}

/** @param contextOf the one context that plays; null while there is none */
export function watchClock(contextOf: () => BaseAudioContext | null): ClockWatch {
  const events: WrittenEvent[] = [];
  const undo: (() => void)[] = [];
  const { get: readClock } = Object.getOwnPropertyDescriptor(BaseAudioContext.prototype, "currentTime") as { get: () => number };
  const readings = new Set<number>();
  Object.defineProperty(BaseAudioContext.prototype, "currentTime", {
    configurable: true,
    get(this: BaseAudioContext) {
      const time = readClock.call(this);
      readings.add(time);
      return time;
    },
  });
  undo.push(() => Object.defineProperty(BaseAudioContext.prototype, "currentTime", { configurable: true, get: readClock }));
  const told = (by: string, at: number) => {
    const context = contextOf();
    // At 0 a value is put there before anything sounds.
    if (context !== null && at > 0 && !readings.has(at)) events.push({ by, at, said: readClock.call(context) });
  };
  const watch = (owner: object, by: string, timeIn: number) => {
    const own = Reflect.get(owner, by) as (...given: readonly number[]) => unknown;
    Reflect.set(owner, by, function (this: unknown, ...given: readonly number[]) {
      told(by, given[timeIn] ?? 0);
      return own.apply(this, given as number[]);
    });
    undo.push(() => Reflect.set(owner, by, own));
  };
  for (const by of ["setValueAtTime", "setTargetAtTime", "linearRampToValueAtTime"]) watch(AudioParam.prototype, by, 1);
  watch(AudioScheduledSourceNode.prototype, "start", 0);
  // A recording has a start of its own.
  watch(AudioBufferSourceNode.prototype, "start", 0);
  return { events, end: () => undo.forEach((back) => void back()) };
}

/** Those that were said only when their time was over. */
export function lateOnes(events: readonly WrittenEvent[]): readonly WrittenEvent[] {
  return events.filter(({ at, said }) => at < said);
}
