import { type Seconds, seconds } from "../units/seconds.ts";

/** How long one gracenote lasts where there is room, seconds. *Source:* from memory; no measured lengths are published that we know. */
export const GRACENOTE_SECONDS: Seconds = seconds(0.04);
