/*
 * Stands in for `vexflow/core` in the app's build: the entry of the package pulls in everything it has, half of which nobody here draws.
 * src/engraving may import no more of VexFlow than what is named here; the build fails if it does.
 */
export { Accidental } from "../node_modules/vexflow/build/esm/src/accidental.js";
export { Element } from "../node_modules/vexflow/build/esm/src/element.js";
export { Metrics } from "../node_modules/vexflow/build/esm/src/metrics.js";
export { RenderContext } from "../node_modules/vexflow/build/esm/src/rendercontext.js";
export { StaveNote } from "../node_modules/vexflow/build/esm/src/stavenote.js";
export { TickContext } from "../node_modules/vexflow/build/esm/src/tickcontext.js";
