import { fileURLToPath } from "node:url";
import { playwright } from "@vitest/browser-playwright";
import { defineConfig } from "vitest/config";
import { CHROMIUM_ARGUMENTS, findChromium } from "./scripts/find-chromium.mjs";

const chromium = findChromium();

/**
 * Three kinds of test. `node` is for everything that needs no browser; `browser` runs inside a page, for pixels, focus and sound;
 * `walks` drive the built app from outside, so `dist` must be there (`npm run build`, or `npm test`, which builds first).
 */
export default defineConfig({
  test: {
    projects: [
      {
        // The build for browsers, as scripts/ninefold.mjs takes it too.
        resolve: { alias: { pdfkit: fileURLToPath(new URL("node_modules/pdfkit/js/pdfkit.browser.mjs", import.meta.url)) } },
        test: {
          name: "node",
          environment: "node",
          include: ["tests/**/*.test.ts"],
          exclude: ["tests/**/*.browser.test.ts", "tests/walks/**"],
          // Nothing in them changes what another file sees, so modules are read once for all: half of the time was reading them again.
          isolate: false,
          pool: "threads",
          maxWorkers: 2,
        },
      },
      {
        // Pages have no environment; `tests/support/cases.ts` asks for this one variable.
        define: { "process.env.NINEFOLD_SOAK": JSON.stringify(process.env.NINEFOLD_SOAK ?? "") },
        optimizeDeps: {
          // Named here, since a dependency found while a test runs makes Vite load the page again under it.
          include: [
            "lit",
            "lit/directive.js",
            "lit/directives/*.js",
            "idb",
            "valibot",
            "mediabunny",
            "vexflow/core",
            "tone/build/esm/component/dynamics/Compressor.js",
            "tone/build/esm/core/context/Context.js",
            "tone/build/esm/core/context/Gain.js",
            "tone/build/esm/core/context/GlobalContext.js",
            "pdfkit",
            "fast-check",
            "axe-core",
          ],
        },
        test: {
          name: "browser",
          include: ["tests/**/*.browser.test.ts"],
          browser: {
            enabled: true,
            headless: true,
            screenshotFailures: false,
            provider: playwright({
              launchOptions: { args: CHROMIUM_ARGUMENTS, ...(chromium ? { executablePath: chromium } : {}) },
            }),
            instances: [{ browser: "chromium" }],
            viewport: { width: 1366, height: 900 },
          },
        },
      },
      {
        test: {
          name: "walks",
          environment: "node",
          include: ["tests/walks/**/*.test.ts"],
          testTimeout: 60_000,
          hookTimeout: 60_000,
          fileParallelism: false,
        },
      },
    ],
  },
});
