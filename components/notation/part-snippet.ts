import type { Snippet } from "../../src/engraving/snippet.ts";
import { barElement, svgElement } from "./bar-element.ts";

/** A few bars of a part as a picture of its own, so many px to a desk pixel; its words are the caller's to style as the parts' are. */
export function snippetElement({ staves, box }: Snippet, label: string): SVGSVGElement {
  const [left, top, width, height] = [box.left - 2, box.top - 2, box.right - box.left + 4, box.bottom - box.top + 4];
  const picture = svgElement("svg", { viewBox: `${left} ${top} ${width} ${height}`, role: "img", "aria-label": label, class: "snippet" });
  for (const { drawing, x, y } of staves) {
    const bar = barElement(drawing);
    bar.setAttribute("transform", `translate(${x} ${y})`);
    picture.append(bar);
  }
  return picture;
}
