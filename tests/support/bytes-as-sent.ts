import type { Page } from "playwright-core";

/** One answer of the server. */
export interface Sent {
  readonly path: string;
  /** On the wire: compressed, headers included. */
  readonly bytes: number;
}

/**
 * Everything a page fetched while `visit` went on and until the network had been quiet for half a second, largest first. Counted by
 * the browser, so whatever was fetched is in it: preloads, fonts, lazy chunks that were not lazy after all.
 */
export async function bytesAsSent(page: Page, visit: () => Promise<void>): Promise<Sent[]> {
  const network = await page.context().newCDPSession(page);
  await network.send("Network.enable");
  const paths = new Map<string, string>();
  const sent: Sent[] = [];
  network.on("Network.requestWillBeSent", ({ requestId, request }) => paths.set(requestId, new URL(request.url).pathname));
  network.on("Network.loadingFinished", ({ requestId, encodedDataLength }) => {
    sent.push({ path: paths.get(requestId) ?? "?", bytes: encodedDataLength });
  });
  await visit();
  await page.waitForLoadState("networkidle");
  await network.detach();
  return sent.sort((a, b) => b.bytes - a.bytes);
}
