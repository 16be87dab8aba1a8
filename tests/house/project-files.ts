import { readdirSync, readFileSync } from "node:fs";
import { join, sep } from "node:path";

/** The project's folder. */
export const PROJECT = join(import.meta.dirname, "../..");

const NOT_OURS = new Set(["node_modules", "dist", ".git", ".vite"]);
const TEXT = /(?:\.(?:ts|mjs|css|html|json|md|svg|txt|abc|musicxml|npmrc)|\.ci\/run)$/;

/** Every text file of the project, by its path from the project's folder. */
export function projectFiles(): Map<string, string> {
  const files = new Map<string, string>();
  const read = (folder: string): void => {
    for (const entry of readdirSync(join(PROJECT, folder), { withFileTypes: true })) {
      const path = join(folder, entry.name);
      if (entry.isDirectory()) {
        if (!NOT_OURS.has(entry.name)) read(path);
      } else if (TEXT.test(path)) files.set(path.split(sep).join("/"), readFileSync(join(PROJECT, path), "utf8"));
    }
  };
  read("");
  return files;
}
