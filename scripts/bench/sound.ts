import { existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import type { Browser, CDPSession } from "playwright-core";
import { build } from "vite";
import { openBuiltApp } from "../../tests/support/built-app.ts";
import type { begun } from "./sound-in-page.ts";
import type { Row } from "./table.ts";

const ROOT = fileURLToPath(new URL("../..", import.meta.url));

/** Minutes of music. Memory must not follow them. */
const LENGTHS = [1, 5, 20] as const;

/** Memory is looked at after every so many pieces. */
const LOOKS_EVERY = 2;

/** What one rendering came to: how long it plays, how long it took, and the most memory there was, in bytes. */
interface Rendering {
  readonly seconds: number;
  readonly took: number;
  /** JS heap and arrays. */
  readonly memory: number;
  /** The page's whole process; null where the system does not say. */
  readonly resident: number | null;
}

/**
 * Renders six lines (pipes and five recorded players), drones and room through the limiter, stereo, 48 kHz, as files are made: how many times
 * faster than it plays, and the most memory it takes for 1, 5 and 20 minutes.
 */
export async function sound(): Promise<Row[]> {
  const folder = mkdtempSync(join(tmpdir(), "ninefold-sound-"));
  try {
    await buildInto(folder);
    const rows: Row[] = [];
    for (const minutes of LENGTHS) {
      const { seconds, took, memory, resident } = await rendered(folder, minutes);
      const least = rows.length === 0;
      rows.push(
        {
          what: `${minutes} min of six lines, drones and room rendered`,
          value: `${(seconds / took).toFixed(1)} x real time`,
          goal: "30 x",
        },
        { what: "  JS heap and its arrays at most", value: megabytes(memory), ...(least ? {} : { goal: `as for ${LENGTHS[0]} min` }) },
        ...(resident === null
          ? []
          : [{ what: "  the page's process at most", value: megabytes(resident), ...(least ? {} : { goal: `as for ${LENGTHS[0]} min` }) }]),
      );
    }
    return rows;
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}

/** The sound room by itself, built as the app is. */
async function buildInto(folder: string): Promise<void> {
  await build({
    root: ROOT,
    configFile: false,
    publicDir: false,
    logLevel: "error",
    build: {
      outDir: folder,
      emptyOutDir: false,
      rolldownOptions: {
        input: join(ROOT, "scripts/bench/sound-in-page.ts"),
        output: { entryFileNames: "sound.js" },
      },
    },
  });
  writeFileSync(
    join(folder, "index.html"),
    '<!doctype html><title>Bench of the sound</title><script type="module" src="sound.js"></script>',
  );
}

/** In a browser of its own: what one rendering left behind is not another's. */
async function rendered(folder: string, minutes: number): Promise<Rendering> {
  const app = await openBuiltApp(folder);
  try {
    const page = await (await app.newUser({ serviceWorkers: "block" })).newPage();
    await page.goto(app.address);
    await page.waitForFunction(() => "begun" in globalThis);
    const inspector = await app.browser.contexts()[0]?.newCDPSession(page);
    const next = await page.evaluateHandle((least) => (globalThis as unknown as { begun: typeof begun }).begun(least), minutes);
    let memory = 0;
    for (let pieces = 1; ; pieces++) {
      const { isOver, seconds, took } = await next.evaluate((piece) => piece());
      if (isOver) return { seconds, took, memory, resident: await residentPeak(app.browser) };
      if (pieces % LOOKS_EVERY === 0) memory = Math.max(memory, await memoryOf(inspector as CDPSession));
    }
  } finally {
    await app.close();
  }
}

/** What JavaScript holds, its arrays included, once what nobody holds is gone; bytes. */
async function memoryOf(inspector: CDPSession): Promise<number> {
  await inspector.send("HeapProfiler.collectGarbage");
  const { usedSize, backingStorageSize } = await inspector.send("Runtime.getHeapUsage");
  return usedSize + backingStorageSize;
}

/** The most memory that any page's process has had, in bytes; null where the system does not say (it is asked as Linux is). */
async function residentPeak(browser: Browser): Promise<number | null> {
  const session = await browser.newBrowserCDPSession();
  const { processInfo } = await session.send("SystemInfo.getProcessInfo");
  const peaks = processInfo
    .filter(({ type, id }) => type === "renderer" && existsSync(`/proc/${id}/status`))
    .map(({ id }) => Number(/VmHWM:\s+(\d+) kB/.exec(readFileSync(`/proc/${id}/status`, "utf8"))?.[1] ?? 0) * 1024);
  return peaks.length === 0 ? null : Math.max(...peaks);
}

function megabytes(bytes: number): string {
  return `${(bytes / 1e6).toFixed(0)} MB`;
}
