// @ts-check
import { accessSync, constants } from "node:fs";
import { delimiter, join } from "node:path";

/** Names under which systems install the browser, the likeliest first. */
const NAMES = ["chromium", "chromium-browser", "google-chrome-stable", "google-chrome", "chrome"];

/**
 * Where Chromium is: `$CHROMIUM`, then the PATH, then Debian's own place. `null` where there is none.
 * @param {NodeJS.ProcessEnv} environment
 * @returns {string | null} an executable file
 */
export function findChromium(environment = process.env) {
  const named = environment.CHROMIUM;
  if (named) return isExecutable(named) ? named : null;
  const folders = (environment.PATH ?? "").split(delimiter).filter(Boolean);
  const places = folders.flatMap((folder) => NAMES.map((name) => join(folder, name)));
  return [...places, "/usr/bin/chromium"].find(isExecutable) ?? null;
}

/**
 * How every test and bench starts it: no display, no sandbox (containers run as root), no traffic of its own, and sound that may
 * start without a press.
 */
export const CHROMIUM_ARGUMENTS = [
  "--no-sandbox",
  "--disable-gpu",
  "--disable-dev-shm-usage",
  "--disable-background-networking",
  "--disable-component-update",
  "--disable-default-apps",
  "--disable-sync",
  "--no-first-run",
  "--mute-audio",
  "--autoplay-policy=no-user-gesture-required",
];

/** @param {string} path */
function isExecutable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}
