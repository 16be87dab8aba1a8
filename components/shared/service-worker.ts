/*
 * Keeps the app on the device. Every build carries its own list of files and its own version (filled in by scripts/build-plugins.mjs).
 *
 *   install    fetch the list into a cache named after the version; files whose hashed name is known already are copied, not fetched
 *   activate   this version's page is now the one that opens offline; older caches go
 *   fetch      the page itself: network first, so that an update shows at once, kept copy when there is no network;
 *              recordings of instruments: kept copy first, and kept when first played, in a cache that outlives versions
 *              everything else: kept copy first, since a hashed name never changes its content
 *
 * A new worker waits until no page uses the old one, so a page never loses the lazy chunks of its own build.
 */
declare const __KEPT_FILES__: readonly string[];
declare const __KEPT_VERSION__: string;

/** The part of the worker's global scope used here; the compiler's own declarations of it clash with those of a page. */
interface WorkerScope {
  readonly location: Location;
  readonly clients: { claim(): Promise<void> };
  addEventListener(type: "install" | "activate", listener: (event: LifeEvent) => void): void;
  addEventListener(type: "fetch", listener: (event: RequestEvent) => void): void;
}
interface LifeEvent {
  waitUntil(work: Promise<unknown>): void;
}
interface RequestEvent extends LifeEvent {
  readonly request: Request;
  respondWith(response: Promise<Response>): void;
}

const scope = globalThis as unknown as WorkerScope;
const PREFIX = "ninefold-";
const CACHE = PREFIX + __KEPT_VERSION__;

/** Recordings of instruments: large, and only some of them are ever played. */
const RECORDINGS = "recordings";
const IS_RECORDING = /^\/assets\/.*\.mp3$/;

/** How long the network may take to answer with the page before the kept copy is shown, in ms. */
const PATIENCE = 3000;

scope.addEventListener("install", (event) => event.waitUntil(keepAll()));
scope.addEventListener("activate", (event) => event.waitUntil(dropOlder().then(() => scope.clients.claim())));
scope.addEventListener("fetch", (event) => {
  const { request } = event;
  if (request.method !== "GET" || new URL(request.url).origin !== scope.location.origin) return;
  event.respondWith(request.mode === "navigate" ? page(request) : kept(request));
});

async function keepAll(): Promise<void> {
  const cache = await caches.open(CACHE);
  await Promise.all(
    __KEPT_FILES__.map(async (path) => {
      const known = path.startsWith("/assets/") ? await caches.match(path) : undefined;
      if (known) await cache.put(path, known);
      else await cache.add(new Request(path, { cache: "no-cache" }));
    }),
  );
}

async function dropOlder(): Promise<void> {
  const names = await caches.keys();
  await Promise.all(names.filter((name) => name.startsWith(PREFIX) && name !== CACHE).map((name) => caches.delete(name)));
}

async function page(request: Request): Promise<Response> {
  const copy = await caches.open(CACHE).then((cache) => cache.match("/"));
  try {
    return await fetch(request, copy ? { signal: AbortSignal.timeout(PATIENCE) } : {});
  } catch (reason) {
    if (copy) return copy;
    throw reason;
  }
}

async function kept(request: Request): Promise<Response> {
  if (IS_RECORDING.test(new URL(request.url).pathname)) return recording(request);
  const copy = await caches.open(CACHE).then((cache) => cache.match(request, { ignoreVary: true }));
  return copy ?? fetch(request);
}

async function recording(request: Request): Promise<Response> {
  const cache = await caches.open(RECORDINGS);
  const copy = await cache.match(request, { ignoreVary: true });
  if (copy) return copy;
  const answer = await fetch(request);
  if (answer.status === 200) await cache.put(request, answer.clone());
  return answer;
}
