/** What Chromium has to record for `keyCosts` and `markCosts`. */
export const TRACED = [
  "toplevel",
  "devtools.timeline",
  "disabled-by-default-devtools.timeline",
  "latencyInfo",
  "input",
  "benchmark",
  "cc",
  "blink.user_timing",
];

/** An event of Chromium's trace; times in microseconds. *Source:* Trace Event Format (Chromium project). */
export interface TraceEvent {
  readonly name: string;
  readonly ph: string;
  readonly pid: number;
  readonly tid: number;
  readonly ts: number;
  readonly dur?: number;
  /** How much of `dur` the thread itself ran, and not another program on the machine. */
  readonly tdur?: number;
  readonly id?: string;
  readonly id2?: { readonly local?: string; readonly global?: string };
  readonly args?: { readonly data?: { readonly type?: string }; readonly event_latency?: { readonly event_type?: string } };
}

/** What one pressed key cost, in ms. */
export interface EditCost {
  /** The main thread's tasks from the one that handles the key to the one that hands the new frame over, both included; only what the thread itself ran. */
  readonly mainThread: number;
  /** From the key's arrival in the browser to the frame on the screen; `null` where the trace does not say. */
  readonly presented: number | null;
}

/** The cost of every key press, in the order they came; `null` for one that led to no new frame. */
export function keyCosts(events: readonly TraceEvent[]): (EditCost | null)[] {
  const presses = inOrder(events.filter(({ name, args }) => name === "EventDispatch" && args?.data?.type === "keydown"));
  return mainThreadAfter(events, presses).map((mainThread, index) =>
    mainThread === null ? null : { mainThread, presented: presentedAfter(events, presses[index] as TraceEvent) },
  );
}

/** The main thread's time, in ms, from every `performance.mark` of that name to the frame it led to; `null` where there was none. */
export function markCosts(events: readonly TraceEvent[], mark: string): (number | null)[] {
  return mainThreadAfter(events, inOrder(events.filter(({ name, ph }) => name === mark && (ph === "R" || ph === "I"))));
}

function mainThreadAfter(events: readonly TraceEvent[], starts: readonly TraceEvent[]): (number | null)[] {
  return starts.map((start, index) => {
    const until = starts[index + 1]?.ts ?? Number.POSITIVE_INFINITY;
    const own = events.filter(({ pid, tid, ts }) => pid === start.pid && tid === start.tid && ts < until);
    const commit = inOrder(own.filter(({ name, ph, ts }) => name === "Commit" && ph === "X" && ts >= start.ts))[0];
    if (!commit) return null;
    const tasks = own.filter(({ name, ph, ts, dur = 0 }) => name === "RunTask" && ph === "X" && ts + dur > start.ts && ts <= commit.ts);
    return tasks.reduce((sum, { dur = 0, tdur = dur }) => sum + tdur, 0) / 1000;
  });
}

function presentedAfter(events: readonly TraceEvent[], press: TraceEvent): number | null {
  const arrivals = events.filter(
    ({ name, ph, ts, args }) =>
      name === "EventLatency" && ph === "b" && ts <= press.ts && /KEY_(?:PRESSED|DOWN)/.test(args?.event_latency?.event_type ?? ""),
  );
  const arrival = inOrder(arrivals).at(-1);
  if (!arrival) return null;
  const end = events.find(
    (event) => event.name === "EventLatency" && event.ph === "e" && idOf(event) === idOf(arrival) && event.ts > arrival.ts,
  );
  return end ? (end.ts - arrival.ts) / 1000 : null;
}

function idOf({ id, id2 }: TraceEvent): string | undefined {
  return id ?? id2?.local ?? id2?.global;
}

function inOrder(events: readonly TraceEvent[]): TraceEvent[] {
  return [...events].sort((a, b) => a.ts - b.ts);
}
