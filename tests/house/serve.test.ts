import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { get } from "node:http";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { brotliCompressSync, gzipSync } from "node:zlib";
import { afterAll, beforeAll, expect, test } from "vitest";
import { pathInside, type Served, serve } from "../../scripts/serve.mjs";

let outside: string;
let folder: string;
let served: Served;

beforeAll(async () => {
  outside = mkdtempSync(join(tmpdir(), "ninefold-"));
  folder = join(outside, "dist");
  mkdirSync(join(folder, "assets"), { recursive: true });
  writeFileSync(join(outside, "secret.txt"), "secret");
  writeFileSync(join(folder, ".made-from"), "stamp");
  writeFileSync(join(folder, "index.html"), "<!doctype html>");
  const script = "export const a = 1;\n".repeat(200);
  writeFileSync(join(folder, "assets/a-1234.js"), script);
  writeFileSync(join(folder, "assets/a-1234.js.br"), brotliCompressSync(script));
  writeFileSync(join(folder, "assets/a-1234.js.gz"), gzipSync(script));
  served = await serve({ folder, port: 0 });
});
afterAll(async () => {
  await served.stop();
  rmSync(outside, { recursive: true });
});

test("the page is asked for again each time, a hashed file is kept for a year", async () => {
  const page = await fetch(served.address);
  expect(page.status).toBe(200);
  expect(page.headers.get("content-type")).toBe("text/html; charset=utf-8");
  expect(page.headers.get("cache-control")).toBe("no-cache");
  expect(page.headers.get("content-security-policy")).toContain("default-src 'self'");
  expect(page.headers.get("x-content-type-options")).toBe("nosniff");
  const again = await fetch(served.address, { headers: { "if-none-match": page.headers.get("etag") ?? "" } });
  expect(again.status).toBe(304);
  const script = await fetch(`${served.address}assets/a-1234.js`);
  expect(script.headers.get("cache-control")).toBe("public, max-age=31536000, immutable");
});

test.each([
  ["br, gzip", "br"],
  ["gzip, deflate", "gzip"],
  ["identity", null],
])("to a browser that accepts %s the answer is packed as %s", async (accepted, packing) => {
  const answer = await fetch(`${served.address}assets/a-1234.js`, { headers: { "accept-encoding": accepted } });
  expect(answer.headers.get("content-encoding")).toBe(packing);
  expect(await answer.text()).toContain("export const a = 1;");
});

test.each(["/nothing.js", "/.made-from", "/assets", "/%2e%2e/secret.txt", "/..%2fsecret.txt", "/..%5csecret.txt", "/%00", "/%"])(
  "%s is not found",
  async (path) => {
    // Not by fetch, which would tidy the path before sending it.
    const status = await new Promise((resolve, reject) => {
      get({ host: "127.0.0.1", port: served.port, path }, (answer) => {
        answer.resume();
        resolve(answer.statusCode);
      }).on("error", reject);
    });
    expect(status).toBe(404);
  },
);

test("no address leads out of the folder", () => {
  for (const url of ["/../secret.txt", "/a/../../secret.txt", "//../secret.txt", "/..", "/%2e%2e%2fsecret.txt"]) {
    const path = pathInside(folder, url);
    expect(path === null || path.startsWith(`${folder}/`), url).toBe(true);
  }
  expect(pathInside(folder, "/?from=home")).toBe(join(folder, "index.html"));
});

test("where the port is taken the next free one is used", async () => {
  const second = await serve({ folder, port: served.port });
  expect(second.port).toBeGreaterThan(served.port);
  expect((await fetch(second.address)).status).toBe(200);
  await second.stop();
});

test("it answers at 127.0.0.1, and writing is refused", async () => {
  expect((await fetch(`http://127.0.0.1:${served.port}/`)).status).toBe(200);
  expect((await fetch(served.address, { method: "POST" })).status).toBe(405);
});
