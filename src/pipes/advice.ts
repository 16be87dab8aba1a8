import { isSmallpipes } from "./low-a.ts";
import type { PipeSetup } from "./pipe-setup.ts";

/** A piece of advice, and what it rests on. */
export interface Advice {
  readonly text: string;
  readonly source: string;
}

/** The ordinary solo and band pitch, hertz of low A, for which Highland reeds and drones are sold. *Source:* 470 to 480 in 1998 (Macpherson), 478 to 482 today (common practice). */
const ORDINARY = { lowest: 470, highest: 486 } as const;

const COMMON_PRACTICE = "Common practice.";

/** What the drones, reeds and chanter of this setup want to be in tune, the most needed first. May be empty. */
export function setupAdvice(setup: PipeSetup): readonly Advice[] {
  if (isSmallpipes(setup)) return [];
  if (setup.lowA < ORDINARY.lowest) {
    return [
      advice(
        "A chanter this low needs its own reeds, and drones made longer with extenders: tune the drones to its low A before you count on it.",
      ),
    ];
  }
  if (setup.lowA <= ORDINARY.highest) return [];
  return [
    advice("A B chanter usually works on an ordinary setup, if the drones' pins have travel enough."),
    advice("A chanter forced sharp tends to a flat low G and is hard to reed."),
  ];
}

/** What to know before anybody takes a knife to a chanter. */
export const CARVING_CAUTION: Advice = advice(
  "Carving a hole or a reed takes a sharp tool and cannot be undone: leave it to a maker. Tape on a hole comes off again.",
);

/** Drones and chanter do not keep their pitch. */
export const WARMING: Advice = advice("Drones and chanter drift apart as they warm: tune again when they have.");

function advice(text: string): Advice {
  return { text, source: COMMON_PRACTICE };
}
