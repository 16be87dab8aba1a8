// @ts-check
import { createHash } from "node:crypto";
import { readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join, resolve } from "node:path";
import { brotliCompressSync, constants, gzipSync } from "node:zlib";
import { CONTENT_SECURITY_POLICY } from "./security-headers.mjs";
import { STAMP_FILE, sourcesStamp } from "./sources-stamp.mjs";

/** The page's policy as a `<meta>`, first in the head. The development server needs inline code, so this is for builds only. */
export function policyInPage() {
  return /** @type {import("vite").Plugin} */ ({
    name: "policy-in-page",
    apply: "build",
    transformIndexHtml: () => [
      { tag: "meta", attrs: { "http-equiv": "Content-Security-Policy", content: CONTENT_SECURITY_POLICY }, injectTo: "head-prepend" },
    ],
  });
}

/**
 * Tells the service worker what there is to keep: replaces `__KEPT_FILES__` by the list of all built and public files and
 * `__KEPT_VERSION__` by a hash of what they hold, so that the worker changes exactly when a file does.
 * @param {string} workerFile name of the worker in the bundle
 */
export function keptFiles(workerFile) {
  let publicFolder = "";
  return /** @type {import("vite").Plugin} */ ({
    name: "kept-files",
    apply: "build",
    enforce: "post",
    configResolved(config) {
      publicFolder = config.publicDir;
    },
    generateBundle: {
      order: "post",
      handler(_, bundle) {
        const worker = bundle[workerFile];
        if (worker?.type !== "chunk") throw new RangeError(`the build has no ${workerFile}`);
        /** @type {Map<string, string | Uint8Array>} */
        const contents = new Map();
        for (const [name, file] of Object.entries(bundle)) {
          // Recordings are kept once they were played: nobody needs all instruments.
          if (name === workerFile || /\.(?:map|mp3)$/.test(name)) continue;
          contents.set(name === "index.html" ? "/" : `/${name}`, file.type === "chunk" ? file.code : file.source);
        }
        for (const name of readdirSync(publicFolder)) contents.set(`/${name}`, readFileSync(join(publicFolder, name)));
        const paths = [...contents.keys()].sort();
        const hash = createHash("sha256");
        for (const path of paths) hash.update(path).update(contents.get(path) ?? "");
        worker.code = worker.code
          .replace("__KEPT_FILES__", JSON.stringify(paths))
          .replace("__KEPT_VERSION__", JSON.stringify(hash.digest("hex").slice(0, 12)));
      },
    },
  });
}

/** Text compresses to about a third; fonts and pictures are compressed already. */
const COMPRESSIBLE = /\.(?:js|css|html|svg|json|webmanifest)$/;

/** Writes `.br` and `.gz` beside every text file, once, at the best ratio, so that serving costs nothing; then stamps the build. */
export function compressedAndStamped() {
  let root = "";
  let out = "";
  let stamp = "";
  return /** @type {import("vite").Plugin} */ ({
    name: "compressed-and-stamped",
    apply: "build",
    configResolved(config) {
      root = config.root;
      out = resolve(config.root, config.build.outDir);
    },
    buildStart() {
      // Before anything is read: what is changed while the build runs is not in it.
      stamp = sourcesStamp(root);
    },
    writeBundle: {
      order: "post",
      sequential: true,
      handler() {
        for (const name of readdirSync(out, { recursive: true, encoding: "utf8" })) {
          if (!COMPRESSIBLE.test(name)) continue;
          const path = join(out, name);
          const bytes = readFileSync(path);
          writeFileSync(`${path}.br`, brotliCompressSync(bytes, { params: { [constants.BROTLI_PARAM_SIZE_HINT]: bytes.length } }));
          writeFileSync(`${path}.gz`, gzipSync(bytes, { level: 9 }));
        }
        writeFileSync(join(out, STAMP_FILE), stamp);
      },
    },
  });
}
