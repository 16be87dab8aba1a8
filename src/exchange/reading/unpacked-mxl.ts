import { unzipSync } from "fflate";
import { ReadError } from "../../units/read-error.ts";
import { decodedText } from "./decoded-text.ts";
import { MOST_BYTES } from "./reading-limits.ts";
import { textAt, type XmlElement, xmlTree } from "./xml-tree.ts";

const CONTAINER = "META-INF/container.xml";

/**
 * The MusicXML file in a compressed one (.mxl): what its container names, or, where it has none, its only .musicxml or .xml file.
 * Nothing is unpacked that says it is too large, and nothing grows beyond what it says.
 * @throws ReadError for a file that is no zip or has no MusicXML in it
 */
export function unpackedMxl(bytes: Uint8Array): Uint8Array {
  const names: string[] = [];
  // A first look unpacks nothing: it only lists.
  unpack(bytes, ({ name }) => {
    names.push(name);
    return false;
  });
  const wanted = names.includes(CONTAINER) ? rootFile(fileIn(bytes, CONTAINER)) : onlyMusic(names);
  if (!names.includes(wanted))
    throw new ReadError({ where: CONTAINER, expected: "the name of a file in it", found: JSON.stringify(wanted) });
  return fileIn(bytes, wanted);
}

function fileIn(bytes: Uint8Array, wanted: string): Uint8Array {
  const files = unpack(bytes, ({ name, originalSize, size }) => {
    if (name !== wanted) return false;
    // Deflate packs at most about 1,032 to 1; whatever says more is lying.
    if (originalSize > MOST_BYTES || originalSize > size * 1040 + 64) {
      throw new ReadError({ where: name, expected: `at most ${MOST_BYTES} bytes unpacked`, found: `${originalSize}` });
    }
    return true;
  });
  return files[wanted] as Uint8Array;
}

function unpack(bytes: Uint8Array, filter: NonNullable<Parameters<typeof unzipSync>[1]>["filter"]): Readonly<Record<string, Uint8Array>> {
  try {
    return unzipSync(bytes, filter ? { filter } : {});
  } catch (error) {
    if (error instanceof ReadError) throw error;
    throw new ReadError({ where: "file", expected: "a zip file", found: error instanceof Error ? error.message : "a broken one" });
  }
}

function rootFile(container: Uint8Array): string {
  const files: XmlElement[] = [];
  const visit = (element: XmlElement): void => {
    if (element.name === "rootfile") files.push(element);
    element.children.forEach(visit);
  };
  const tree = xmlTree(decodedText(container));
  visit(tree);
  const music = files.find(({ attributes }) => /musicxml/i.test(attributes["media-type"] ?? "musicxml")) ?? files[0];
  const path = music?.attributes["full-path"];
  if (!path) throw new ReadError({ where: CONTAINER, expected: "a rootfile", found: textAt(tree) || "none" });
  return path;
}

function onlyMusic(names: readonly string[]): string {
  const music = names.filter((name) => /\.(?:musicxml|xml)$/i.test(name) && !name.startsWith("META-INF/") && !name.startsWith("__MACOSX/"));
  const [only] = music;
  if (only === undefined || music.length > 1) {
    throw new ReadError({ where: "file", expected: "one MusicXML file in it", found: `${music.length} of them` });
  }
  return only;
}
