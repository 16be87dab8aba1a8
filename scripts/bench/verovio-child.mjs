/* One cold run of Verovio: MusicXML from the file named first, every page to SVG. Prints what it took, in ms. */
import { readFileSync } from "node:fs";

const began = performance.now();
const { default: createModule } = await import("verovio/wasm");
const { VerovioToolkit } = await import("verovio/esm");
const toolkit = new VerovioToolkit(await createModule());
const loaded = performance.now();

const [file = ""] = process.argv.slice(2);
toolkit.setOptions({ breaks: "auto", footer: "none" });
if (!toolkit.loadData(readFileSync(file, "utf8"))) throw new Error("Verovio refuses the file");
let ink = 0;
const pages = toolkit.getPageCount();
for (let page = 1; page <= pages; page++) ink += toolkit.renderToSVG(page).length;
const drawn = performance.now();
console.log(JSON.stringify({ load: loaded - began, engrave: drawn - loaded, pages, ink }));
