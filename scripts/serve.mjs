// @ts-check
import { createReadStream, statSync } from "node:fs";
import { createServer } from "node:http";
import { extname, join, normalize, sep } from "node:path";
import { SECURITY_HEADERS } from "./security-headers.mjs";

/** @type {Record<string, string>} */
const TYPES = {
  ".css": "text/css; charset=utf-8",
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".json": "application/json; charset=utf-8",
  ".mp3": "audio/mpeg",
  ".otf": "font/otf",
  ".png": "image/png",
  ".svg": "image/svg+xml; charset=utf-8",
  ".txt": "text/plain; charset=utf-8",
  ".wasm": "application/wasm",
  ".webmanifest": "application/manifest+json",
  ".woff2": "font/woff2",
};

/** Both, since `localhost` means the one on some machines and the other on others. */
const ADDRESSES = ["127.0.0.1", "::1"];

/** How many ports after the wanted one are tried. */
const PORTS_TRIED = 50;

/**
 * @typedef {object} Served
 * @property {number} port
 * @property {string} address to open in a browser
 * @property {() => Promise<void>} stop drops open connections too
 */

/**
 * Serves a built app to this machine only.
 * @param {{ folder: string, port: number }} options the wanted port; the next free one is taken where it is in use. 0 for any.
 * @returns {Promise<Served>}
 * @throws {Error} where no port is free
 */
export async function serve({ folder, port }) {
  for (let candidate = port; candidate < port + PORTS_TRIED; candidate++) {
    const servers = await listenEverywhere(folder, candidate);
    if (!servers) continue;
    const taken = portOf(servers[0]);
    return {
      port: taken,
      address: `http://localhost:${taken}/`,
      stop: () => stopAll(servers),
    };
  }
  throw new Error(`No port is free from ${port} to ${port + PORTS_TRIED - 1}.`);
}

/**
 * @param {string} folder
 * @param {number} port
 * @returns {Promise<import("node:http").Server[] | null>} `null` if the port is in use at any of the addresses
 */
async function listenEverywhere(folder, port) {
  /** @type {import("node:http").Server[]} */
  const servers = [];
  for (const host of ADDRESSES) {
    const server = createServer((request, response) => answer(folder, request, response));
    const refusal = await listen(server, port === 0 && servers[0] ? portOf(servers[0]) : port, host);
    if (refusal === null) servers.push(server);
    else if (refusal === "EADDRINUSE" || refusal === "EACCES") {
      await stopAll(servers);
      return null;
    }
    // Any other refusal: the machine does not have this kind of address.
  }
  return servers.length > 0 ? servers : null;
}

/**
 * @param {import("node:http").Server} server
 * @param {number} port
 * @param {string} host
 * @returns {Promise<string | null>} the system's code for why not
 */
function listen(server, port, host) {
  return new Promise((resolve) => {
    server.once("error", (/** @type {NodeJS.ErrnoException} */ error) => resolve(error.code ?? "unknown"));
    server.listen(port, host, () => resolve(null));
  });
}

/** @param {import("node:http").Server | undefined} server */
function portOf(server) {
  const address = server?.address();
  if (!address || typeof address === "string") throw new RangeError("the server does not listen");
  return address.port;
}

/** @param {readonly import("node:http").Server[]} servers */
async function stopAll(servers) {
  await Promise.all(
    servers.map(
      (server) =>
        new Promise((resolve) => {
          server.close(resolve);
          server.closeAllConnections();
        }),
    ),
  );
}

/**
 * @param {string} folder
 * @param {import("node:http").IncomingMessage} request
 * @param {import("node:http").ServerResponse} response
 */
function answer(folder, request, response) {
  for (const [name, value] of Object.entries(SECURITY_HEADERS)) response.setHeader(name, value);
  if (request.method !== "GET" && request.method !== "HEAD") return refuse(response, 405);
  const path = pathInside(folder, request.url ?? "/");
  const file = path === null ? null : fileAt(path);
  if (path === null || file === null) return refuse(response, 404);

  const packed = bestPacking(path, String(request.headers["accept-encoding"] ?? ""));
  const sent = packed ? fileAt(path + packed.ending) : null;
  const { size, mtimeMs } = sent ?? file;
  const tag = `"${size.toString(36)}-${Math.floor(mtimeMs).toString(36)}"`;
  response.setHeader("Content-Type", TYPES[extname(path)] ?? "application/octet-stream");
  response.setHeader("Vary", "Accept-Encoding");
  response.setHeader("ETag", tag);
  // A hashed name never changes its content; anything else is asked for again, and answered by 304 where nothing changed.
  response.setHeader("Cache-Control", path.includes(`${sep}assets${sep}`) ? "public, max-age=31536000, immutable" : "no-cache");
  if (request.headers["if-none-match"] === tag) {
    response.writeHead(304).end();
    return;
  }
  if (sent && packed) response.setHeader("Content-Encoding", packed.name);
  response.setHeader("Content-Length", size);
  response.writeHead(200);
  if (request.method === "HEAD") {
    response.end();
    return;
  }
  createReadStream(sent && packed ? path + packed.ending : path)
    .on("error", () => response.destroy())
    .pipe(response);
}

/**
 * @param {string} folder
 * @param {string} url as it was asked for
 * @returns {string | null} `null` for what is outside the folder, hidden, or not an address at all
 */
export function pathInside(folder, url) {
  let name;
  try {
    name = decodeURIComponent(url.split(/[?#]/, 1)[0] ?? "");
  } catch {
    return null;
  }
  if (name.includes("\0") || /[\\/]\./.test(name)) return null;
  const path = join(folder, normalize(name.endsWith("/") ? `${name}index.html` : name));
  return path.startsWith(folder + sep) ? path : null;
}

/** @param {string} path */
function fileAt(path) {
  const found = statSync(path, { throwIfNoEntry: false });
  return found?.isFile() ? found : null;
}

/**
 * @param {string} path
 * @param {string} accepted the browser's list
 */
function bestPacking(path, accepted) {
  const packings = [
    { name: "br", ending: ".br" },
    { name: "gzip", ending: ".gz" },
  ];
  return packings.find(({ name, ending }) => new RegExp(`\\b${name}\\b`).test(accepted) && fileAt(path + ending) !== null) ?? null;
}

/**
 * @param {import("node:http").ServerResponse} response
 * @param {number} status
 */
function refuse(response, status) {
  response.writeHead(status, { "Content-Type": "text/plain; charset=utf-8" }).end(`${status}\n`);
}
