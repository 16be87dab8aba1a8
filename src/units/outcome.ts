/** What comes back from an act that the user may not do just now: the value, or the reason why not. */
export type Outcome<Value, Reason = string> =
  | { readonly ok: true; readonly value: Value }
  | { readonly ok: false; readonly reason: Reason };

/** The act was done; here is what came of it. */
export function done<Value>(value: Value): { readonly ok: true; readonly value: Value } {
  return { ok: true, value };
}

/** The act was refused; the reason is for the screen to word or, if it is a sentence, to show. */
export function refused<Reason>(reason: Reason): { readonly ok: false; readonly reason: Reason } {
  return { ok: false, reason };
}
