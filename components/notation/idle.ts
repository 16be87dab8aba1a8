/** Does a little at a time while the page has nothing better to do. */
export class IdleWork {
  #handle: number | null = null;

  /** Takes steps until there are none left; work begun before is dropped. */
  start(steps: Iterator<unknown>): void {
    this.stop();
    const go = (deadline: IdleDeadline) => {
      this.#handle = null;
      do {
        if (steps.next().done === true) return;
      } while (deadline.timeRemaining() > 4);
      this.#handle = ask(go);
    };
    this.#handle = ask(go);
  }

  stop(): void {
    if (this.#handle !== null) cancel(this.#handle);
    this.#handle = null;
  }
}

/** Where a browser has no idle time to give, a pause does. */
function ask(work: (deadline: IdleDeadline) => void): number {
  if (typeof requestIdleCallback === "function") return requestIdleCallback(work);
  return window.setTimeout(() => work({ didTimeout: false, timeRemaining: () => 0 }), 50);
}

function cancel(handle: number): void {
  if (typeof cancelIdleCallback === "function") cancelIdleCallback(handle);
  else clearTimeout(handle);
}
