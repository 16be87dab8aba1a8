/* Small song files of our own, one for each format, with as much in them as fits. */

/** Paper Lantern Weather as MusicXML: a sung part with a pickup, a tie, a triplet, two verses, a repeat with endings, chords; and a B flat clarinet. */
export const LANTERN_XML = `<?xml version="1.0" encoding="UTF-8"?>
<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" "http://www.musicxml.org/dtds/partwise.dtd">
<score-partwise version="4.0">
  <work><work-title>Paper Lantern Weather</work-title></work>
  <identification><creator type="composer">Mairi Quern</creator></identification>
  <part-list>
    <score-part id="P1"><part-name>Voice</part-name></score-part>
    <score-part id="P2"><part-name>Clarinet in Bb</part-name></score-part>
  </part-list>
  <part id="P1">
    <measure number="0" implicit="yes">
      <attributes><divisions>6</divisions><key><fifths>2</fifths><mode>major</mode></key><time><beats>3</beats><beat-type>4</beat-type></time></attributes>
      <direction><direction-type><metronome><beat-unit>quarter</beat-unit><beat-unit-dot/><per-minute>60</per-minute></metronome></direction-type></direction>
      <note><pitch><step>A</step><octave>4</octave></pitch><duration>6</duration><lyric number="1"><syllabic>begin</syllabic><text>Pa</text></lyric></note>
    </measure>
    <measure number="1">
      <barline location="left"><repeat direction="forward"/></barline>
      <harmony><root><root-step>D</root-step></root><kind>major</kind></harmony>
      <note><grace/><pitch><step>G</step><octave>5</octave></pitch></note>
      <note><pitch><step>D</step><octave>5</octave></pitch><duration>12</duration><lyric number="1"><syllabic>end</syllabic><text>per</text></lyric><lyric number="2"><text>Slow</text></lyric></note>
      <note><pitch><step>F</step><alter>1</alter><octave>5</octave></pitch><duration>6</duration><tie type="start"/></note>
    </measure>
    <measure number="2">
      <barline location="left"><ending number="1" type="start"/></barline>
      <note><pitch><step>F</step><alter>1</alter><octave>5</octave></pitch><duration>6</duration><tie type="stop"/></note>
      <note><pitch><step>E</step><octave>5</octave></pitch><duration>4</duration><time-modification><actual-notes>3</actual-notes><normal-notes>2</normal-notes></time-modification></note>
      <note><pitch><step>D</step><octave>5</octave></pitch><duration>4</duration></note>
      <note><pitch><step>E</step><octave>5</octave></pitch><duration>4</duration></note>
      <barline location="right"><ending number="1" type="stop"/><repeat direction="backward"/></barline>
    </measure>
    <measure number="3">
      <barline location="left"><ending number="2" type="start"/></barline>
      <note><pitch><step>D</step><octave>5</octave></pitch><duration>18</duration></note>
      <note><chord/><pitch><step>A</step><octave>4</octave></pitch><duration>18</duration></note>
      <barline location="right"><ending number="2" type="stop"/></barline>
    </measure>
  </part>
  <part id="P2">
    <measure number="0" implicit="yes">
      <attributes><divisions>1</divisions><key><fifths>4</fifths></key><transpose><diatonic>-1</diatonic><chromatic>-2</chromatic></transpose></attributes>
      <note><rest/><duration>1</duration></note>
    </measure>
    <measure number="1"><note><pitch><step>E</step><octave>4</octave></pitch><duration>3</duration></note></measure>
    <measure number="2">
      <note><pitch><step>E</step><octave>4</octave></pitch><duration>3</duration><voice>1</voice></note>
      <backup><duration>3</duration></backup>
      <forward><duration>1</duration></forward>
      <note><pitch><step>B</step><octave>3</octave></pitch><duration>2</duration><voice>2</voice></note>
    </measure>
    <measure number="3"><note><pitch><step>E</step><octave>4</octave></pitch><duration>3</duration></note></measure>
  </part>
</score-partwise>
`;

/** A few bars of ABC with a bit of everything. */
export const LANTERN_ABC = `X:1
T:Paper Lantern Weather
C:Mairi Quern
M:6/8
L:1/8
Q:3/8=60
K:Ador
V:1 name="Tune"
V:2 name="Under"
[V:1] E | "Am"{g}A>Bc d3- | d(3efg !trill!a2 [ce] |1 "G"g3- g3 :|2 A6 |]
w: Slow lan-tern wea-ther_ * falls a-way
[V:2] z | A,3 E3 & C6 | Z | G,6 | A,6 |]
`;

/** What is written into a MIDI file: an event's bytes, so many ticks after the one before. */
export type MidiStep = readonly [delta: number, bytes: readonly number[]];

/** A Standard MIDI File of tracks. */
export function midiFile(tracks: readonly (readonly MidiStep[])[], ticksPerQuarter = 480, format = 1): Uint8Array {
  const ascii = (text: string): number[] => [...text].map((letter) => letter.charCodeAt(0));
  const uint = (value: number, count: number): number[] =>
    Array.from({ length: count }, (_, place) => (value >> (8 * (count - 1 - place))) & 255);
  const chunks = tracks.flatMap((steps) => {
    const body = [...steps, [0, [0xff, 0x2f, 0]] as MidiStep].flatMap(([delta, bytes]) => [...variableLength(delta), ...bytes]);
    return [...ascii("MTrk"), ...uint(body.length, 4), ...body];
  });
  return Uint8Array.from([
    ...ascii("MThd"),
    ...uint(6, 4),
    ...uint(format, 2),
    ...uint(tracks.length, 2),
    ...uint(ticksPerQuarter, 2),
    ...chunks,
  ]);
}

function variableLength(value: number): number[] {
  const bytes = [value & 127];
  for (let rest = value >> 7; rest > 0; rest >>= 7) bytes.unshift((rest & 127) | 128);
  return bytes;
}

/** A text event of a type: 3 a track's name, 5 a lyric. */
export function midiText(type: number, text: string): readonly number[] {
  return [0xff, type, text.length, ...[...text].map((letter) => letter.charCodeAt(0))];
}

/** A line played by hand: notes of MIDI number, at a tick, to a tick, on a channel. */
export function midiNoteSteps(notes: readonly (readonly [key: number, from: number, to: number])[], channel = 0): readonly MidiStep[] {
  const moments = notes
    .flatMap(([key, from, to]) => [
      { tick: from, bytes: [0x90 + channel, key, 80] },
      { tick: to, bytes: [0x80 + channel, key, 0] },
    ])
    .sort((a, b) => a.tick - b.tick || (a.bytes[0] ?? 0) - (b.bytes[0] ?? 0));
  return moments.map(({ tick, bytes }, index) => [tick - (moments[index - 1]?.tick ?? 0), bytes]);
}
