/** An XML element as plain data. Children that are null are left out, so that a caller can say "where there is one". */
export interface XmlElement {
  readonly name: string;
  readonly attributes: Readonly<Record<string, string>>;
  readonly children: readonly XmlChild[];
}

/** What may stand inside an element: an element, text, or nothing. */
export type XmlChild = XmlElement | string | null;

/** An element with attributes. */
export function elementWith(name: string, attributes: Readonly<Record<string, string>>, ...children: readonly XmlChild[]): XmlElement {
  return { name, attributes, children };
}

/** An element without attributes. A number becomes its decimal text. */
export function element(name: string, ...children: readonly (XmlChild | number)[]): XmlElement {
  return { name, attributes: {}, children: children.map((child) => (typeof child === "number" ? String(child) : child)) };
}

/** An element around text, or null where the text is empty. */
export function unlessEmpty(name: string, attributes: Readonly<Record<string, string>>, text: string): XmlElement | null {
  return text.trim() === "" ? null : elementWith(name, attributes, text);
}

/** A whole XML document: declaration, document type, root, one element a line. */
export function xmlDocument(documentType: string, root: XmlElement): string {
  const lines = ['<?xml version="1.0" encoding="UTF-8" standalone="no"?>', documentType];
  writeElement(root, "", lines);
  return `${lines.join("\n")}\n`;
}

function writeElement({ name, attributes, children }: XmlElement, indent: string, lines: string[]): void {
  const given = children.filter((child) => child !== null);
  const head = name + attributeText(attributes);
  if (given.length === 0) {
    lines.push(`${indent}<${head}/>`);
  } else if (given.every((child) => typeof child === "string")) {
    lines.push(`${indent}<${head}>${given.map(escaped).join("")}</${name}>`);
  } else {
    lines.push(`${indent}<${head}>`);
    for (const child of given) {
      if (typeof child === "string") lines.push(`${indent}  ${escaped(child)}`);
      else writeElement(child, `${indent}  `, lines);
    }
    lines.push(`${indent}</${name}>`);
  }
}

function attributeText(attributes: Readonly<Record<string, string>>): string {
  return Object.entries(attributes)
    .map(([name, value]) => ` ${name}="${escaped(value)}"`)
    .join("");
}

const ESCAPES: Readonly<Record<string, string>> = { "&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;" };

/** Text as XML takes it. What XML 1.0 has no place for (most control characters, half a surrogate pair) becomes U+FFFD. */
export function escaped(text: string): string {
  return text
    .replace(/[&<>"]/g, (sign) => ESCAPES[sign] as string)
    .replace(/[^\t\n\r\u{20}-\u{D7FF}\u{E000}-\u{FFFD}\u{10000}-\u{10FFFF}]/gu, "\uFFFD");
}
