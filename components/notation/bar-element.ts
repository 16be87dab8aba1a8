import type { BarDrawing, MarkGroup, MarkRole, TextMark } from "../../src/engraving/drawing.ts";
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

/** What becomes one element: the ink of a group, or one of its words. */
type Piece =
  | { readonly kind: "ink"; readonly role: MarkRole; readonly at: Ticks | null; readonly d: string }
  | { readonly kind: "word"; readonly role: MarkRole; readonly mark: TextMark };

/** A drawing as one `<g>`: a path for each group of ink, a text for each word. Classes are the groups' roles. */
export function barElement(drawing: BarDrawing): SVGGElement {
  const bar = svgElement("g");
  bar.append(...piecesOf(drawing).map(pieceElement));
  return bar;
}

/**
 * Makes a `<g>` that shows one drawing show another. Elements whose ink is the same are not touched, so that little has to be styled, laid out and
 * painted again.
 */
export function repaint(bar: SVGGElement, from: BarDrawing, to: BarDrawing): void {
  const [old, wanted] = [piecesOf(from), piecesOf(to)];
  const elements = [...bar.children];
  for (const [index, piece] of wanted.entries()) {
    const [before, element] = [old[index], elements[index]];
    if (before === undefined || element === undefined) bar.append(pieceElement(piece));
    else if (before.kind === "ink" && piece.kind === "ink") patch(element as SVGPathElement, before, piece);
    else if (!isSameWord(before, piece)) element.replaceWith(pieceElement(piece));
  }
  for (const element of elements.slice(wanted.length)) element.remove();
}

function patch(path: SVGPathElement, before: Piece & { readonly kind: "ink" }, { role, at, d }: Piece & { readonly kind: "ink" }): void {
  if (before.d !== d) path.setAttribute("d", d);
  if (before.role !== role) path.setAttribute("class", role);
  if (before.at === at) return;
  if (at === null) delete path.dataset.at;
  else path.dataset.at = String(at);
}

function isSameWord(one: Piece, other: Piece): boolean {
  if (one.kind === "ink" || other.kind === "ink" || one.role !== other.role) return false;
  const [mark, wanted] = [one.mark, other.mark];
  return (Object.keys(wanted) as (keyof TextMark)[]).every((key) => mark[key] === wanted[key]);
}

function piecesOf(drawing: BarDrawing): readonly Piece[] {
  return drawing.groups.flatMap(piecesOfGroup);
}

function piecesOfGroup(group: MarkGroup): readonly Piece[] {
  const { role, at, marks } = group;
  const d = pathOfGroup(group);
  const words = marks.flatMap((mark): readonly Piece[] => (mark.kind === "text" ? [{ kind: "word", role, mark }] : []));
  return d === "" ? words : [{ kind: "ink", role, at, d }, ...words];
}

function pieceElement(piece: Piece): SVGElement {
  if (piece.kind === "word") return wordElement(piece.mark, piece.role);
  const path = svgElement("path", { class: piece.role, d: piece.d });
  if (piece.at !== null) path.dataset.at = String(piece.at);
  return path;
}

function wordElement(mark: TextMark, role: MarkRole): SVGTextElement {
  const element = svgElement("text", { class: `${role} ${mark.face} w${mark.weight}`, x: mark.x, y: mark.y, "font-size": mark.size });
  if (mark.anchor !== "start") element.setAttribute("text-anchor", mark.anchor);
  element.textContent = mark.text;
  return element;
}

/** Gives the notes of a painted bar that begin at these moments a class, and takes it from all others; gracenotes, if they are meant. */
export function classNotes(bar: SVGGElement, name: string, ats: ReadonlySet<number>, roles = "path.note, path.rest"): void {
  for (const path of bar.querySelectorAll<SVGPathElement>(roles)) {
    path.classList.toggle(name, ats.has(Number(path.dataset.at)));
  }
}
