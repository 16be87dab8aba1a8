// @ts-check
import { spawnSync } from "node:child_process";

/** The programs of the package poppler-utils that the tests read PDF files with. */
export const POPPLER_PROGRAMS = ["pdffonts", "pdfinfo", "pdftoppm", "pdftotext"];

/** Whether all of them can be run. */
export function hasPoppler() {
  return POPPLER_PROGRAMS.every((program) => spawnSync(program, ["-v"], { stdio: "ignore" }).error === undefined);
}
