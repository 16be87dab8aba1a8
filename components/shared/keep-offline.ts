import { trustedScriptUrl } from "./trusted-urls.ts";

/**
 * Has the browser keep the whole app, so that it opens without a network after one visit. Waits until the page has loaded and is
 * idle, since everything the worker fetches can wait. Does nothing while developing, or where the browser forbids workers.
 */
export function keepOffline(): void {
  if (!import.meta.env.PROD || !("serviceWorker" in navigator)) return;
  const register = (): void => {
    // A refusal (private window, full disk) leaves the app as it is: it works, but needs the network to open.
    navigator.serviceWorker.register(trustedScriptUrl("/service-worker.js")).catch(() => undefined);
  };
  const whenIdle = (): void => {
    if ("requestIdleCallback" in window) requestIdleCallback(register, { timeout: 4000 });
    else setTimeout(register, 1000);
  };
  if (document.readyState === "complete") whenIdle();
  else addEventListener("load", whenIdle, { once: true });
}
