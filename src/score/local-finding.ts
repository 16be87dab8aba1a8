import type { Ticks } from "../units/ticks.ts";
import type { Address } from "./address.ts";
import type { Finding, FindingKind } from "./finding.ts";
import type { LineId } from "./line-id.ts";

/** A place in a line, so many bars before the bar that is looked at (0: in it). */
export type Place = (barsBack: number, at: Ticks) => Address;

/** A finding that does not know yet which bar of which line it is in, so that it can be kept with the bar. */
export interface LocalFinding {
  readonly kind: FindingKind;
  /** So many bars before the bar it was found in; 0 when left out. */
  readonly barsBack?: number;
  readonly at: Ticks;
  readonly message: string;
  /** Of a crossing: the notes that can sound. */
  readonly notes?: Finding["notes"];
  readonly cures: (place: Place) => Finding["cures"];
}

/** A tie that does not lead to the same note. */
export function looseTie(barsBack: number, at: Ticks): LocalFinding {
  return {
    kind: "tie",
    barsBack,
    at,
    message: "This tie leads to another note. Take it away, or make the notes alike.",
    cures: (place) => [{ label: "Take it away", edits: [{ kind: "tie", at: place(barsBack, at), tied: false }] }],
  };
}

const placed = new WeakMap<LocalFinding, readonly Finding[]>();

/** The finding in its place. Asked again for the same place it is the same object. */
export function findingAt(local: LocalFinding, line: LineId, bar: number): Finding {
  const barsBack = local.barsBack ?? 0;
  const known = placed.get(local) ?? [];
  const same = known.find(({ address }) => address.line === line && address.bar === bar - barsBack);
  if (same !== undefined) return same;
  const place: Place = (back, at) => ({ line, bar: bar - back, at });
  const { kind, message, notes } = local;
  const made: Finding = {
    kind,
    address: place(barsBack, local.at),
    message,
    ...(notes === undefined ? {} : { notes }),
    cures: local.cures(place),
  };
  placed.set(local, [made, ...known].slice(0, 4));
  return made;
}
