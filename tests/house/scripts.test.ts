import { chmodSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import { keyCosts, type TraceEvent } from "../../scripts/bench/trace.ts";
import { findChromium } from "../../scripts/find-chromium.mjs";
import { packagesAreThoseOfTheLock } from "../../scripts/packages.mjs";
import { sourcesStamp } from "../../scripts/sources-stamp.mjs";

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "ninefold-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

function write(path: string, text: string): string {
  const file = join(folder, path);
  mkdirSync(join(file, ".."), { recursive: true });
  writeFileSync(file, text);
  return file;
}

describe("packages", () => {
  const LOCK = { "": {}, "node_modules/a": { version: "1.0.0" }, "node_modules/b-darwin": { version: "2.0.0", optional: true } };

  function installed(packages: object | null): boolean {
    write("package-lock.json", JSON.stringify({ packages: LOCK }));
    if (packages) write("node_modules/.package-lock.json", JSON.stringify({ packages }));
    return packagesAreThoseOfTheLock(folder);
  }

  test("need installing where npm left no account", () => expect(installed(null)).toBe(false));
  test("are right without what belongs to another system", () => {
    expect(installed({ "node_modules/a": { version: "1.0.0" } })).toBe(true);
  });
  test("need installing where one is missing", () => {
    expect(installed({ "node_modules/b-darwin": { version: "2.0.0", optional: true } })).toBe(false);
  });
  test("need installing where one has another version", () => {
    expect(installed({ "node_modules/a": { version: "1.0.1" } })).toBe(false);
  });
});

describe("Chromium", () => {
  test("is taken from $CHROMIUM before the PATH", () => {
    const named = write("elsewhere/browser", "");
    chmodSync(named, 0o755);
    const onPath = write("bin/chromium", "");
    chmodSync(onPath, 0o755);
    const PATH = ["", join(folder, "none"), join(folder, "bin")].join(delimiter);
    expect(findChromium({ CHROMIUM: named, PATH })).toBe(named);
    expect(findChromium({ PATH })).toBe(onPath);
  });
  test("is not found where $CHROMIUM names what cannot be run, whatever else there is", () => {
    expect(findChromium({ CHROMIUM: join(folder, "gone") })).toBe(null);
  });
});

describe("the stamp of the sources", () => {
  test("changes with a file's content and name, and with nothing else", () => {
    write("src/a.ts", "1");
    write("components/b.ts", "2");
    const before = sourcesStamp(folder);
    write("tests/c.ts", "a test is not built");
    write("src/a.ts", "1");
    expect(sourcesStamp(folder)).toBe(before);
    write("src/a.ts", "3");
    const changed = sourcesStamp(folder);
    expect(changed).not.toBe(before);
    rmSync(join(folder, "src/a.ts"));
    write("src/z.ts", "3");
    expect(sourcesStamp(folder)).not.toBe(changed);
  });
});

describe("the cost of a key", () => {
  const on = { pid: 1, tid: 1, ph: "X" };
  const key = (ts: number): TraceEvent => ({ ...on, name: "EventDispatch", ts, dur: 4000, args: { data: { type: "keydown" } } });
  const task = (ts: number, dur: number): TraceEvent => ({ ...on, name: "RunTask", ts, dur });
  const commit = (ts: number): TraceEvent => ({ ...on, name: "Commit", ts, dur: 100 });

  test("is the time of the main thread's tasks from the key to the new frame, in ms, with neither idle nor later ones", () => {
    const events = [
      task(0, 500),
      task(1000, 5000),
      key(1200),
      task(9000, 2000),
      commit(10_500),
      task(30_000, 7000),
      { ...task(2000, 90_000), tid: 2 },
    ];
    expect(keyCosts(events)).toEqual([{ mainThread: 7, presented: null }]);
  });
  test("is null for a key that led to no frame before the next key", () => {
    const events = [task(0, 1000), key(100), task(50_000, 1000), key(50_100), task(60_000, 3000), commit(61_000)];
    expect(keyCosts(events)).toEqual([null, { mainThread: 4, presented: null }]);
  });
  test("says when the frame was on the screen, from the key's arrival", () => {
    const latency = (ph: string, ts: number): TraceEvent => ({
      ...on,
      ph,
      name: "EventLatency",
      ts,
      id2: { local: "0x1" },
      ...(ph === "b" ? { args: { event_latency: { event_type: "KEY_PRESSED" } } } : {}),
    });
    const events = [latency("b", 50), task(80, 5000), key(100), commit(4000), latency("e", 16_050)];
    expect(keyCosts(events)[0]?.presented).toBe(16);
  });
});
