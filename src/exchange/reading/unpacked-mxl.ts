import { Unzip, UnzipInflate, unzipSync } from "fflate";
import { ReadError } from "../../units/read-error.ts";
import { decodedText } from "./decoded-text.ts";
import { MOST_BYTES } from "./reading-limits.ts";
import { textAt, type XmlElement, xmlTree } from "./xml-tree.ts";

const CONTAINER = "META-INF/container.xml";

/**
 * The MusicXML file in a compressed one (.mxl): what its container names, or, where it has none, its only .musicxml or .xml file.
 * Unpacking ends as soon as it comes to too much, whatever sizes the file tells.
 * @throws ReadError for a file that is no zip or has no MusicXML in it
 */
export function unpackedMxl(bytes: Uint8Array): Uint8Array {
  const names: string[] = [];
  // A first look unpacks nothing: it only lists.
  const list = ({ name }: { readonly name: string }): boolean => {
    names.push(name);
    return false;
  };
  orRefuse(() => unzipSync(bytes, { filter: list }));
  const wanted = names.includes(CONTAINER) ? rootFile(fileIn(bytes, CONTAINER)) : onlyMusic(names);
  if (!names.includes(wanted))
    throw new ReadError({ where: CONTAINER, expected: "the name of a file in it", found: JSON.stringify(wanted) });
  return fileIn(bytes, wanted);
}

/** Compressed bytes unpacked at a time: between them the sum is looked at, and 16 kB cannot unpack to more than some 17 MB. */
const STEP = 16 * 1024;

function fileIn(bytes: Uint8Array, wanted: string): Uint8Array {
  const pieces: Uint8Array[] = [];
  let length = 0;
  let ended = false;
  const unzip = new Unzip((file) => {
    if (file.name !== wanted || ended) return;
    file.ondata = (error, piece, final) => {
      if (error) throw error;
      length += piece.length;
      if (length > MOST_BYTES) throw new ReadError({ where: wanted, expected: `at most ${MOST_BYTES} bytes unpacked`, found: "more" });
      pieces.push(piece);
      ended = final;
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  orRefuse(() => {
    for (let at = 0; at < bytes.length && !ended; at += STEP) unzip.push(bytes.subarray(at, at + STEP), at + STEP >= bytes.length);
  });
  if (!ended) throw new ReadError({ where: wanted, expected: "a whole file", found: "one cut short" });
  const whole = new Uint8Array(length);
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

function orRefuse<Value>(act: () => Value): Value {
  try {
    return act();
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
