import { XmlDocument, type XmlElement } from "libxml2-wasm";

/** Looks into an XML text with paths: `//note[grace]`. Every answer is taken from a fresh reading, so nothing need be given back. */
export interface XmlReading {
  /** How many places a path has. */
  readonly count: (path: string) => number;
  /** The text at each place of a path, in order. */
  readonly texts: (path: string) => readonly string[];
  /** The text at the first place of a path, or null. */
  readonly text: (path: string) => string | null;
}

/** @throws when the text is no well-formed XML */
export function xmlReading(xml: string): XmlReading {
  const texts = (path: string): readonly string[] => {
    const document = XmlDocument.fromString(xml);
    try {
      return document.find(path).map((node) => (node as XmlElement).content.trim());
    } finally {
      document.dispose();
    }
  };
  return { texts, count: (path) => texts(path).length, text: (path) => texts(path)[0] ?? null };
}
