import { expect } from "vitest";
import type { Line, Score } from "../../src/score/score.ts";
import type { MidiNote } from "./midi-notes.ts";
import { type SoundingEvent, soundingEvents } from "./sounding-events.ts";

/** Verovio ends its notes a tick of its own early, so that like notes do not run together; in quarters. */
const A_TICK = 1 / 60;

/** What Verovio's notes are to be for one event: the gracenotes take their time from it, how much is Verovio's choice. */
function expectEvent(heard: MidiNote[], event: SoundingEvent): void {
  const group = heard.splice(0, event.gracenotes + event.semitones.length);
  const [graces, notes] = [group.slice(0, event.gracenotes), group.slice(event.gracenotes)];
  expect(Math.abs((group[0]?.from ?? Number.NaN) - event.from)).toBeLessThan(A_TICK);
  expect(notes.map(({ pitch }) => pitch)).toEqual(event.semitones);
  for (const note of notes) expect(Math.abs(note.to - event.to)).toBeLessThan(2 * A_TICK);
  for (const grace of graces) expect(grace.to).toBeLessThanOrEqual(notes[0]?.from ?? 0);
}

/** Expects that what was heard is what a line sounds, note for note, and nothing else. */
export function expectHeard(heard: readonly MidiNote[] | undefined, score: Score, line: Line): void {
  const left = [...(heard ?? [])];
  for (const event of soundingEvents(score, line)) expectEvent(left, event);
  expect(left).toEqual([]);
}
