import { SaxesParser } from "saxes";
import { ReadError } from "../../units/read-error.ts";
import { DEEPEST, MOST_ELEMENTS } from "./reading-limits.ts";

/** An element of an XML file. */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlElement[];
  /** Its own text, all pieces together, as it stands. */
  readonly text: string;
  /** Line of the file it begins on, from 1. */
  readonly line: number;
}

/**
 * Reads XML into a tree. Nothing outside is asked for; a document that declares entities of its own is refused, since they can be made
 * to grow without end.
 * @throws ReadError with the line, for XML that is not well-formed, nests too deep or has too many elements
 */
export function xmlTree(text: string): XmlElement {
  const parser = new SaxesParser({ xmlns: false });
  type Growing = XmlElement & { children: XmlElement[]; text: string };
  const open: Growing[] = [];
  let root: XmlElement | null = null;
  let count = 0;
  const refuse = (expected: string, found: string): never => {
    throw new ReadError({ where: `line ${parser.line}`, expected, found });
  };
  parser.on("error", (error) => refuse("well-formed XML", error.message.replace(/^\d+:\d+: /, "").replace(/\.$/, "")));
  parser.on("doctype", (doctype) => {
    if (/<!ENTITY/i.test(doctype)) refuse("no entities of the document's own", "an ENTITY declaration");
  });
  parser.on("opentag", ({ name, attributes }) => {
    count += 1;
    if (open.length >= DEEPEST) refuse(`elements at most ${DEEPEST} deep`, "deeper ones");
    if (count > MOST_ELEMENTS) refuse(`at most ${MOST_ELEMENTS} elements`, "more");
    const element: Growing = { name, attributes, children: [], text: "", line: parser.line };
    open.at(-1)?.children.push(element);
    root ??= element;
    open.push(element);
  });
  const addText = (piece: string): void => {
    const element = open.at(-1);
    if (element) element.text += piece;
  };
  parser.on("text", addText);
  parser.on("cdata", addText);
  parser.on("closetag", () => void open.pop());
  parser.write(text).close();
  return root ?? refuse("an element", "none");
}

/** The first child of a name; null where there is none. */
export function child(element: XmlElement | null, name: string): XmlElement | null {
  return element?.children.find((one) => one.name === name) ?? null;
}

/** All children of a name, in order. */
export function children(element: XmlElement | null, name: string): readonly XmlElement[] {
  return element?.children.filter((one) => one.name === name) ?? [];
}

/** The trimmed text of the element down this path of names; empty where there is none. */
export function textAt(element: XmlElement | null, ...path: readonly string[]): string {
  let place = element;
  for (const name of path) place = child(place, name);
  return place?.text.trim() ?? "";
}

/**
 * The number down this path; null where there is no such element.
 * @throws ReadError with its line, for a text that is no finite number
 */
export function numberAt(element: XmlElement | null, ...path: readonly string[]): number | null {
  let place = element;
  for (const name of path) place = child(place, name);
  if (!place) return null;
  const text = place.text.trim();
  const value = Number(text);
  if (text === "" || !Number.isFinite(value)) {
    throw new ReadError({ where: `line ${place.line}, ${place.name}`, expected: "a number", found: JSON.stringify(text.slice(0, 40)) });
  }
  return value;
}
