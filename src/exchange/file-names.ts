/** Bytes of a name in UTF-8. Systems take 255 for a whole file name, which has two names, a number and an ending in it. */
const LONGEST = 96;

/** A name for a file that every system takes and people can read: letters, digits, spaces and the usual signs stay as they are. */
export function plainFileName(name: string): string {
  const plain = name
    .normalize("NFC")
    .replace(/[\\/:*?"<>|\p{Cc}\p{Cs}]/gu, " ")
    .replace(/\s+/g, " ");
  return shortened(plain).replace(/^[ .]+|[ .]+$/g, "") || "Untitled";
}

function shortened(text: string): string {
  const encoder = new TextEncoder();
  let [short, bytes] = ["", 0];
  for (const letter of text) {
    bytes += encoder.encode(letter).length;
    if (bytes > LONGEST) break;
    short += letter;
  }
  return short;
}

/**
 * A file name, without its ending, for each of several parts of one title: `Paper Lantern Weather - Pipes`. No two are the same, not even
 * where a system does not tell capitals from small letters; players of one name are counted.
 */
export function partFileNames(title: string, players: readonly string[]): readonly string[] {
  const taken = new Set<string>();
  return players.map((player) => {
    const stem = `${plainFileName(title)} - ${plainFileName(player)}`;
    let name = stem;
    for (let count = 2; taken.has(name.toLowerCase()); count += 1) name = `${stem} ${count}`;
    taken.add(name.toLowerCase());
    return name;
  });
}

/** A file name, without its ending, that says of which revision it is: `Paper Lantern Weather - Pipes, learner, revision 12`. */
export function revisedFileName(stem: string, what: string | null, revision: number): string {
  return [stem, what, `revision ${revision}`].filter((word) => word !== null).join(", ");
}
