import type { Song, SongMeter } from "../../song/song.ts";
import { SONG_TICKS_PER_QUARTER, songTicks } from "../../song/song-ticks.ts";
import { bpm } from "../../units/bpm.ts";
import { ReadError } from "../../units/read-error.ts";
import { type DraftedNote, joinedTies } from "./drafted-note.ts";
import { LeftOutLedger } from "./left-out-ledger.ts";
import { type AtMoment, type MeasureNote, MusicxmlPartReader } from "./musicxml-part-reader.ts";
import { type DraftedBar, numberedBars } from "./numbered-bars.ts";
import { MOST_BARS, MOST_LINES } from "./reading-limits.ts";
import { type DraftedLine, songFromDraft } from "./song-from-draft.ts";
import { child, children, textAt, type XmlElement, xmlTree } from "./xml-tree.ts";

/**
 * Reads a MusicXML text, partwise or timewise. Every voice of every part becomes a line, at sounding pitch.
 * @throws ReadError with the line in the file
 */
export function readMusicxml(text: string): Song {
  const root = partwise(xmlTree(text));
  const ledger = new LeftOutLedger();
  const names = partNames(root);
  const parts = children(root, "part");
  if (parts.length === 0) throw new ReadError({ where: `line ${root.line}`, expected: "a part", found: "none" });
  if (parts.length > MOST_LINES) throw new ReadError({ where: "file", expected: `at most ${MOST_LINES} parts`, found: `${parts.length}` });
  const readers = parts.map((part, index) => ({
    reader: partReader(part, `${index}`, ledger),
    name: names.get(part.attributes.id ?? "") ?? "",
  }));
  const bars = numberedBars(
    draftedBars(
      readers.map(({ reader }) => reader),
      children(parts[0] as XmlElement, "measure"),
    ),
  );
  const moment = ({ measure, at }: { measure: number; at: number }): number => (bars[measure]?.onset ?? 0) + at;
  const timed = <Value>(moments: readonly AtMoment<Value>[]) => moments.map((one) => ({ onset: songTicks(moment(one)), value: one.value }));
  const all = readers.map(({ reader }) => reader);
  return songFromDraft({
    format: "musicxml",
    title: titleOf(root),
    composer: composerOf(root),
    bars,
    tempos: timed(all.flatMap(({ tempos }) => tempos)).map(({ onset, value }) => ({ onset, quarters: bpm(value) })),
    keys: timed(all.find(({ keys }) => keys.length > 0)?.keys ?? []).map(({ onset, value }) => ({ onset, ...value })),
    chords: timed(all.flatMap(({ chords }) => chords)).map(({ onset, value }) => ({ onset, symbol: value })),
    lines: readers.flatMap(({ reader, name }, index) => linesOf(reader.notes, name, `${index}`, moment)),
    ledger,
    quantising: null,
  });
}

/** A timewise file turned about; a partwise one as it is. */
function partwise(root: XmlElement): XmlElement {
  if (root.name === "score-partwise") return root;
  if (root.name !== "score-timewise") {
    throw new ReadError({ where: `line ${root.line}`, expected: "a MusicXML score", found: `<${root.name}>` });
  }
  const measures = new Map<string, XmlElement[]>();
  for (const measure of children(root, "measure")) {
    for (const part of children(measure, "part")) {
      const id = part.attributes.id ?? "";
      measures.set(id, [...(measures.get(id) ?? []), { ...part, name: "measure", attributes: measure.attributes }]);
    }
  }
  const parts = [...measures].map(([id, inOrder]) => ({ name: "part", attributes: { id }, children: inOrder, text: "", line: root.line }));
  return { ...root, name: "score-partwise", children: [...root.children.filter(({ name }) => name !== "measure"), ...parts] };
}

function partReader(part: XmlElement, id: string, ledger: LeftOutLedger): MusicxmlPartReader {
  const reader = new MusicxmlPartReader(id, ledger);
  const measures = children(part, "measure");
  if (measures.length > MOST_BARS) {
    throw new ReadError({ where: `line ${part.line}`, expected: `at most ${MOST_BARS} measures`, found: `${measures.length}` });
  }
  for (const measure of measures) {
    try {
      reader.readMeasure(measure);
    } catch (error) {
      if (!(error instanceof ReadError)) throw error;
      const { expected, found } = error;
      throw new ReadError({ where: `measure ${measure.attributes.number ?? "?"}, ${error.where}`, expected, found });
    }
  }
  return reader;
}

function partNames(root: XmlElement): ReadonlyMap<string, string> {
  return new Map(
    children(child(root, "part-list"), "score-part").map((part) => [
      part.attributes.id ?? "",
      textAt(part, "part-name-display", "display-text") || textAt(part, "part-name") || textAt(part, "score-instrument", "instrument-name"),
    ]),
  );
}

function titleOf(root: XmlElement): string {
  const credits = children(root, "credit");
  const title = credits.find((credit) => textAt(credit, "credit-type") === "title");
  return textAt(root, "movement-title") || textAt(root, "work", "work-title") || textAt(title ?? credits[0] ?? null, "credit-words");
}

function composerOf(root: XmlElement): string {
  const creators = children(child(root, "identification"), "creator");
  return creators.find(({ attributes }) => attributes.type === "composer")?.text ?? "";
}

/** The bars all parts share: as long as the longest part in them, with the signs of whichever part has them. */
function draftedBars(readers: readonly MusicxmlPartReader[], first: readonly XmlElement[]): readonly DraftedBar[] {
  const count = Math.max(...readers.map(({ measures }) => measures.length));
  const numbers = numbersOf(first, count);
  const drafted: DraftedBar[] = [];
  const metered = readers.some(({ measures }) => measures.some(({ meter }) => meter !== undefined));
  let meter: SongMeter | null = metered ? null : meterByContent(readers);
  for (let index = 0; index < count; index++) {
    const here = readers.flatMap(({ measures }) => measures[index] ?? []);
    const written = here.map((one) => one.meter).find((one) => one !== undefined);
    if (written !== undefined) meter = written;
    drafted.push({
      content: Math.max(...here.map(({ content }) => content)),
      meter,
      repeatFrom: here.some(({ repeatFrom }) => repeatFrom),
      repeatTimes: Math.max(...here.map(({ repeatTimes }) => repeatTimes)),
      endings: here.find(({ endings }) => endings.length > 0)?.endings ?? [],
      number: numbers?.[index] ?? null,
    });
  }
  return drafted;
}

/** Numbers as the file gives them, if they never go down; a measure that is not counted has the number before it. */
function numbersOf(measures: readonly XmlElement[], count: number): readonly number[] | null {
  if (measures.length !== count) return null;
  let last = 0;
  const numbers: number[] = [];
  for (const { attributes } of measures) {
    const text = attributes.number ?? "";
    const number = /^\d+$/.test(text) ? Number(text) : attributes.implicit === "yes" ? last : Number.NaN;
    if (!(number >= last) || number > MOST_BARS) return null;
    numbers.push(number);
    last = number;
  }
  return numbers;
}

/** For a file that writes no meter: the length most of its bars have, in quarters or eighths. */
function meterByContent(readers: readonly MusicxmlPartReader[]): SongMeter | null {
  const counts = new Map<number, number>();
  const most = Math.max(...readers.map(({ measures }) => measures.length));
  for (let index = 0; index < most; index++) {
    const content = Math.max(...readers.map(({ measures }) => measures[index]?.content ?? 0));
    counts.set(content, (counts.get(content) ?? 0) + 1);
  }
  const [length = 0] = [...counts].sort((a, b) => b[1] - a[1])[0] ?? [];
  for (const unit of [4, 8, 16]) {
    const beats = (length * unit) / (4 * SONG_TICKS_PER_QUARTER);
    if (beats > 0 && beats <= 32 && Number.isInteger(beats)) return { beats, unit };
  }
  return null;
}

/** The lines of a part: one for each voice, and for each staff too where a voice sounds on two at once. */
function linesOf(notes: readonly MeasureNote[], part: string, id: string, moment: (note: MeasureNote) => number): readonly DraftedLine[] {
  if (notes.length === 0) return [{ id, name: part, notes: [] }];
  const placed = notes.map((note) => ({ ...note, onset: moment(note) }));
  const voices = groupedBy(joinedTies(placed), ({ voice }) => voice);
  const groups = [...voices.values()].flatMap((voice) =>
    soundsOnTwoStaves(voice) ? [...groupedBy(voice, ({ staff }) => staff).values()] : [voice],
  );
  const homes = groups.map(homeStaff);
  const ordered = groups
    .map((group, index) => ({ group, staff: homes[index] as string }))
    .sort((a, b) => Number(a.staff) - Number(b.staff));
  const staves = new Set(homes).size;
  const place = new Map<string, number>();
  return ordered.map(({ group, staff }) => {
    const voice = (place.get(staff) ?? 0) + 1;
    place.set(staff, voice);
    const several = homes.filter((home) => home === staff).length > 1;
    const name = [part, ...(staves > 1 ? [`staff ${staff}`] : []), ...(several ? [`voice ${voice}`] : [])]
      .filter((piece) => piece !== "")
      .join(", ");
    // What the part's reader left out is told under the part's first line.
    return { id: ordered[0]?.group === group ? id : `${id} ${staff} ${voice}`, name, notes: group };
  });
}

type PlacedNote = DraftedNote & { readonly staff: string; readonly voice: string };

function groupedBy(notes: readonly PlacedNote[], keyOf: (note: PlacedNote) => string): ReadonlyMap<string, PlacedNote[]> {
  const groups = new Map<string, PlacedNote[]>();
  for (const note of notes) {
    const group = groups.get(keyOf(note));
    if (group) group.push(note);
    else groups.set(keyOf(note), [note]);
  }
  return groups;
}

/** Whether notes of different staves overlap: then the file counts its voices anew on each staff. */
function soundsOnTwoStaves(notes: readonly PlacedNote[]): boolean {
  const ends = new Map<string, number>();
  for (const { onset, duration, staff } of [...notes].sort((a, b) => a.onset - b.onset)) {
    for (const [other, end] of ends) if (other !== staff && end > onset) return true;
    ends.set(staff, Math.max(ends.get(staff) ?? 0, onset + duration));
  }
  return false;
}

/** The staff most of a group's notes stand on. */
function homeStaff(notes: readonly PlacedNote[]): string {
  const counts = new Map<string, number>();
  for (const { staff } of notes) counts.set(staff, (counts.get(staff) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]?.[0] ?? "1";
}
