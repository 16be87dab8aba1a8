import { fileURLToPath } from "node:url";
import { defineConfig } from "vite";
import { compressedAndStamped, keptFiles, policyInPage } from "./scripts/build-plugins.mjs";

/** The worker keeps its name, since a browser looks for its update under the address it was registered at. */
const WORKER = "service-worker.js";

export default defineConfig({
  // Half of VexFlow is all that is drawn with, and all that is sent.
  resolve: { alias: { "vexflow/core": fileURLToPath(new URL("scripts/lean-vexflow.mjs", import.meta.url)) } },
  build: {
    target: "es2022",
    modulePreload: { polyfill: false },
    // The first load is judged by a walk, in bytes as sent; VexFlow alone is 165 kB before it is compressed, and cannot be split.
    chunkSizeWarningLimit: 1000,
    // Whatever is inlined as data: would need an exception in the page's policy.
    assetsInlineLimit: 0,
    rollupOptions: {
      // Compressing at the best ratio takes longer than building, and is meant to.
      checks: { pluginTimings: false },
      input: { index: "index.html", "service-worker": "components/shared/service-worker.ts" },
      output: {
        entryFileNames: (chunk) => (chunk.name === "service-worker" ? WORKER : "assets/[name]-[hash].js"),
      },
    },
  },
  // A worker loads what it needs in pieces too.
  worker: { format: "es" },
  // Met in a worker only, where finding it while developing would load the page anew.
  optimizeDeps: { include: ["pdfkit"] },
  server: { port: 5173, host: "localhost" },
  plugins: [policyInPage(), keptFiles(WORKER), compressedAndStamped()],
});
