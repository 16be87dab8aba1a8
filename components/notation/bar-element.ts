import type { BarDrawing, MarkGroup, TextMark } from "../../src/engraving/drawing.ts";
import { pathOfGroup } from "../../src/engraving/group-path.ts";
import type { Ticks } from "../../src/units/ticks.ts";

const SVG = "http://www.w3.org/2000/svg";

/** An SVG element with its attributes. */
export function svgElement<Name extends keyof SVGElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string | number>> = {},
): SVGElementTagNameMap[Name] {
  const element = document.createElementNS(SVG, name);
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, String(value));
  return element;
}

/** A drawing as one `<g>`: a path for each group of ink, a text for each word. Classes are the groups' roles. */
export function barElement(drawing: BarDrawing): SVGGElement {
  const bar = svgElement("g");
  for (const group of drawing.groups) addGroup(bar, group);
  return bar;
}

function addGroup(bar: SVGGElement, group: MarkGroup): void {
  const d = pathOfGroup(group);
  if (d !== "") {
    const path = svgElement("path", { class: group.role, d });
    if (group.at !== null) path.dataset.at = String(group.at);
    bar.append(path);
  }
  for (const mark of group.marks) if (mark.kind === "text") bar.append(textElement(mark, group.role));
}

function textElement(mark: TextMark, role: string): SVGTextElement {
  const element = svgElement("text", { class: `${role} ${mark.face} w${mark.weight}`, x: mark.x, y: mark.y, "font-size": mark.size });
  if (mark.anchor !== "start") element.setAttribute("text-anchor", mark.anchor);
  element.textContent = mark.text;
  return element;
}

/** Gives the notes of a painted bar that begin at these moments a class, and takes it from all others. */
export function classNotes(bar: SVGGElement, name: string, ats: ReadonlySet<Ticks>): void {
  for (const path of bar.querySelectorAll<SVGPathElement>(`path.note, path.rest`)) {
    path.classList.toggle(name, ats.has(Number(path.dataset.at) as Ticks));
  }
}
