import { existsSync, readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { XmlDocument, XmlValidateError, XsdValidator, xmlRegisterInputProvider } from "libxml2-wasm";

/** Where the MusicXML 4.0 schema lies beside the project, or does not. */
const SCHEMA_FOLDER = fileURLToPath(new URL("../../../shared/suites/musicxml-xsd/", import.meta.url));

/** Whether the schema is there; the tests that need it are left out, and say so, where it is not. */
export const HAS_SCHEMA = existsSync(`${SCHEMA_FOLDER}musicxml.xsd`);

/** Goes into the name of a test that is left out without the schema. */
export const SCHEMA_NOTE = HAS_SCHEMA ? "" : " (left out: ../shared/suites/musicxml-xsd is not here)";

/** The places the schema imports from; everything else is refused, so that no test reaches for the network. */
const IMPORTED = "http://www.musicxml.org/xsd/";

let validator: XsdValidator | null = null;

/** What is wrong with a MusicXML text by the schema, one line each; empty when it is valid. */
export function schemaFaults(musicxml: string): readonly string[] {
  const document = XmlDocument.fromString(musicxml);
  try {
    schemaValidator().validate(document);
    return [];
  } catch (error) {
    if (!(error instanceof XmlValidateError)) throw error;
    return error.details.map(({ line, message }) => `line ${line}: ${message.trim()}`);
  } finally {
    document.dispose();
  }
}

/** Every name of the format's list of sounds. */
export function soundNames(): ReadonlySet<string> {
  const text = readFileSync(`${SCHEMA_FOLDER}sounds.xml`, "utf8");
  return new Set([...text.matchAll(/<sound id="([^"]+)"/g)].map((match) => match[1] as string));
}

function schemaValidator(): XsdValidator {
  if (validator !== null) return validator;
  serveImports();
  const schema = XmlDocument.fromBuffer(readFileSync(`${SCHEMA_FOLDER}musicxml.xsd`), { url: `${IMPORTED}musicxml.xsd` });
  validator = XsdValidator.fromDoc(schema);
  return validator;
}

/** Answers the schema's two imports from the folder. */
function serveImports(): void {
  const open = new Map<number, { readonly bytes: Uint8Array; at: number }>();
  let handles = 0;
  xmlRegisterInputProvider({
    match: (name) => name.startsWith(IMPORTED),
    open: (name) => {
      const path = SCHEMA_FOLDER + name.slice(IMPORTED.length);
      if (!existsSync(path)) return undefined;
      handles += 1;
      open.set(handles, { bytes: readFileSync(path), at: 0 });
      return handles;
    },
    read: (handle, buffer) => {
      const file = open.get(handle);
      if (file === undefined) return -1;
      const piece = file.bytes.subarray(file.at, file.at + buffer.length);
      buffer.set(piece);
      file.at += piece.length;
      return piece.length;
    },
    close: (handle) => open.delete(handle),
  });
}
