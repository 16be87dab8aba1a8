import { posix } from "node:path";
import type { FileSyntax } from "./syntax.ts";

/**
 * The layers, lowest first; a file may import from lower layers and from its own folder. Folders in one row do not see each other.
 * `components` may import `src` (but not its command line), never the reverse.
 */
const SRC_LAYERS: readonly (readonly string[])[] = [
  ["units"],
  ["pitch"],
  ["acoustics"],
  ["pipes"],
  ["ensemble"],
  ["song"],
  ["score"],
  ["editing", "arranging", "engraving", "playback"],
  ["exchange"],
  ["cli"],
];
const COMPONENT_LAYERS: readonly (readonly string[])[] = [
  ["shared"],
  ["session"],
  ["setup", "grid", "notation", "sound", "handover"],
  ["app"],
];

/** Who alone may import a package. */
const PACKAGE_HOMES: readonly { readonly package: RegExp; readonly home: RegExp; readonly says: string }[] = [
  { package: /^(?:vexflow|@vexflow-fonts)(?:\/|$)/, home: /^src\/engraving\//, says: "only src/engraving draws with VexFlow" },
  { package: /^(?:tonal|@tonaljs)(?:\/|$)/, home: /^src\/pitch\//, says: "only src/pitch asks tonal" },
  { package: /^(?:lit|@lit)(?:\/|$)/, home: /^components\//, says: "Lit belongs to components" },
  { package: /^tone(?:\/|$)/, home: /^components\//, says: "Tone belongs to components" },
  { package: /^pdfkit(?:\/|$)/, home: /^src\/exchange\//, says: "PDF is written in src/exchange" },
  { package: /^(?:saxes|fflate)(?:\/|$)/, home: /^src\/exchange\/reading\//, says: "files of songs are read in src/exchange/reading" },
  { package: /^idb(?:\/|$)/, home: /^components\//, says: "storage belongs to components" },
  { package: /^node:/, home: /^src\/cli\//, says: "only src/cli may touch Node" },
];

/** What is wrong with one import, in words; `null` where nothing is. */
export function importFault(from: string, specifier: string, files: ReadonlySet<string>): string | null {
  if (!specifier.startsWith(".")) return packageFault(from, specifier);
  const target = importTarget(from, specifier);
  if (!/\.\w+$/.test(target)) return `${specifier}: name the file with its extension`;
  if (target.endsWith(".ts") && !files.has(target)) return `${specifier}: there is no ${target}`;
  return layerFault(from, target);
}

/** The path a relative import leads to, without Vite's `?url` and the like. */
export function importTarget(from: string, specifier: string): string {
  return posix.normalize(posix.join(posix.dirname(from), specifier.replace(/\?.*$/, "")));
}

function packageFault(from: string, specifier: string): string | null {
  // Importing "tone" builds an audio context as a side effect, by a Blob worker that the page's policy forbids.
  if (specifier === "tone") return "tone: import its files (tone/build/esm/…), not the package";
  // Its first values are written as an attribute, which the policy refuses too.
  if (specifier === "lit/directives/style-map.js") return `${specifier}: use components/shared/style-map.ts`;
  const broken = PACKAGE_HOMES.find((rule) => rule.package.test(specifier) && !rule.home.test(from));
  return broken ? `${specifier}: ${broken.says}` : null;
}

function layerFault(from: string, target: string): string | null {
  const [fromTree, fromFolder] = placeOf(from);
  const [tree, folder] = placeOf(target);
  if (tree !== "src" && tree !== "components") {
    return tree === "examples" && fromTree === "components" ? null : `${target}: outside src and components`;
  }
  if (fromTree === "src" && tree === "components") return `${target}: src knows no components`;
  if (tree === fromTree && folder === fromFolder) return null;
  if (fromTree === "components" && tree === "src") return folder === "cli" ? `${target}: the command line is not for the page` : null;
  const layers = tree === "src" ? SRC_LAYERS : COMPONENT_LAYERS;
  const [height, fromHeight] = [heightOf(layers, folder), heightOf(layers, fromFolder)];
  if (height === -1) return `${target}: ${folder} is in no layer`;
  if (fromHeight === -1) return `${from}: ${fromFolder} is in no layer`;
  return height < fromHeight ? null : `${target}: ${fromFolder} does not see ${folder}`;
}

function placeOf(path: string): readonly [string, string] {
  const [tree = "", folder = ""] = path.split("/");
  return [tree, folder];
}

function heightOf(layers: readonly (readonly string[])[], folder: string): number {
  return layers.findIndex((row) => row.includes(folder));
}

/** Every ring of imports, each once, as `a → b → a`. Types count: a ring of types is a ring in a reader's head too. */
export function importRings(syntaxes: ReadonlyMap<string, FileSyntax>): string[] {
  const rings: string[] = [];
  const done = new Set<string>();
  const visit = (file: string, path: readonly string[]): void => {
    const start = path.indexOf(file);
    if (start !== -1) {
      rings.push([...path.slice(start), file].join(" → "));
      return;
    }
    if (done.has(file)) return;
    for (const specifier of syntaxes.get(file)?.imports ?? []) {
      if (!specifier.startsWith(".")) continue;
      const target = importTarget(file, specifier);
      if (syntaxes.has(target)) visit(target, [...path, file]);
    }
    done.add(file);
  };
  for (const file of syntaxes.keys()) visit(file, []);
  return rings;
}
