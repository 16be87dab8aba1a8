import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CHANTER_NOTES, type ChanterNote, type PlainNote } from "../../src/pipes/chanter-note.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import { EMBELLISHMENTS } from "../../src/pipes/embellishment-table.ts";
import { lettersOfGracenotes } from "../../src/pipes/gracenote-letters.ts";
import { hertzOf } from "../../src/pipes/sounding.ts";
import { atTempo, heardGroup } from "../../src/playback/heard-group.ts";
import { scheduleOf } from "../../src/playback/schedule.ts";
import { bpm } from "../../src/units/bpm.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeScore } from "../support/playback-scores.ts";
import { gracedNote, pipeNote } from "../support/written-music.ts";

const setup = defaultSetup("Bb");

/** Every entry of the table, after each note it may follow. */
const STANDING = EMBELLISHMENTS.flatMap((entry) => entry.after.map((before) => ({ entry, before })));

/** A group between two notes, the first from the start of a bar, so many quarters a minute. */
function played(gracenotes: readonly PlainNote[], before: ChanterNote, note: ChanterNote, length: number, perMinute: number) {
  const score = pipeScore([[pipeNote(before, length), gracedNote(gracenotes, note, length), pipeNote("low-a", 3840 - 2 * length)]]);
  const frames = score.frames.map((frame) => ({ ...frame, tempo: { beat: ticks(960), perMinute: bpm(perMinute) } }));
  const schedule = scheduleOf({ ...score, frames });
  const steps = schedule.chanters[0]?.spans[0]?.steps ?? [];
  return { steps, start: schedule.timeline.start, written: (length / 960) * (60 / perMinute) };
}

describe("every entry of the table, played between its two notes,", () => {
  it("takes 40 ms a gracenote where there is room: a grip or a taorluath ends on the beat, anything else begins there", () => {
    for (const { entry, before } of STANDING) {
      const { steps, start, written } = played(entry.gracenotes, before, entry.on, 960, 60);
      const where = `${lettersOfGracenotes(entry.gracenotes)} on ${entry.on} after ${before}`;
      const beat = start + written;
      const first = steps.findIndex(({ gracenote }) => gracenote);
      const count = entry.gracenotes.length;
      const begins = entry.name === "grip" || entry.name === "taorluath" ? beat - 0.04 * count : beat;
      for (const [index, gracenote] of entry.gracenotes.entries()) {
        expect(steps[first + index]?.note, where).toBe(gracenote);
        expect(steps[first + index]?.at, where).toBeCloseTo(begins + 0.04 * index, 9);
      }
      expect(steps[first + count]?.note, where).toBe(entry.on);
      expect(steps[first + count]?.at, where).toBeCloseTo(begins + 0.04 * count, 9);
    }
  });

  it("gives each gracenote time however short and fast the notes are, and leaves each note at least half of its own", () => {
    const lengths = fc.constantFrom(30, 60, 120, 160, 240, 480, 960);
    fc.assert(
      fc.property(fc.constantFrom(...STANDING), lengths, fc.integer({ min: 20, max: 400 }), ({ entry, before }, length, perMinute) => {
        const { steps, start, written } = played(entry.gracenotes, before, entry.on, length, perMinute);
        const first = steps.findIndex(({ gracenote }) => gracenote);
        const note = first + entry.gracenotes.length;
        for (const [index, step] of steps.slice(1).entries()) expect(step.at - (steps[index]?.at ?? 0)).toBeGreaterThan(0.0005);
        for (let index = first; index < note; index += 1) {
          const lasts = (steps[index + 1]?.at ?? 0) - (steps[index]?.at ?? 0);
          expect(lasts).toBeGreaterThan(0);
          expect(lasts).toBeLessThanOrEqual(0.04 + 1e-9);
        }
        const onBeat = steps[first]?.at ?? 0;
        expect(onBeat - start).toBeGreaterThanOrEqual(written / 2 - 1e-9);
        expect(start + 2 * written - (steps[note]?.at ?? 0)).toBeGreaterThanOrEqual(written / 2 - 1e-9);
      }),
      { seed: 20261125, numRuns: 1000 },
    );
  });
});

describe("a group heard by itself", () => {
  const steps = (...args: Parameters<typeof heardGroup>) => heardGroup(...args).steps.map(({ note, at }) => `${note}@${at.toFixed(2)}`);

  it("is the end of the note before, the gracenotes, and the note, at their pitches", () => {
    const span = heardGroup({
      setup,
      before: { note: "b", seconds: 2 },
      notes: [{ note: "d", gracenotes: ["low-g", "d", "c"], seconds: 3 }],
    });
    expect(span.steps.map(({ note, at }) => `${note}@${at.toFixed(2)}`)).toEqual(["b@0.00", "low-g@0.60", "d@0.64", "c@0.68", "d@0.72"]);
    expect(span.stop).toBeCloseTo(1.8, 9);
    for (const { hertz, note } of span.steps) expect(hertz).toBe(hertzOf(setup, note));
  });

  it("keeps short notes as short as they are, with the gracenotes hurried as in the score", () => {
    const before = { note: "b", seconds: 0.1 } as const;
    expect(steps({ setup, before, notes: [{ note: "d", gracenotes: ["low-g", "d", "c"], seconds: 0.12 }] })).toEqual([
      "b@0.00",
      "low-g@0.10",
      "d@0.12",
      "c@0.14",
      "d@0.16",
    ]);
  });

  it("puts a grip before the beat, and on it after silence", () => {
    const notes = [{ note: "c", gracenotes: ["low-g", "d", "low-g"], seconds: 1 }] as const;
    expect(steps({ setup, before: { note: "e", seconds: 1 }, notes })[1]).toBe("low-g@0.48");
    expect(steps({ setup, before: null, notes })).toEqual(["low-g@0.00", "d@0.04", "low-g@0.08", "c@0.12"]);
  });

  it("is slower where the transport is: at 50 percent its notes last twice as long, its gracenotes as long as ever", () => {
    const before = { note: "b", seconds: 0.1 } as const;
    const group = { setup, before, notes: [{ note: "d", gracenotes: ["low-g"], seconds: 0.2 }] } as const;
    expect(steps(atTempo(group, 50))).toEqual(["b@0.00", "low-g@0.20", "d@0.24"]);
    expect(heardGroup(atTempo(group, 50)).stop).toBeCloseTo(0.6, 9);
  });

  it("is a figure on several notes, one after the other", () => {
    const notes = (["high-g", "d", "e"] as const).map((gracenote) => ({ note: "b" as const, gracenotes: [gracenote], seconds: 0.5 }));
    const heard = heardGroup({ setup, before: null, notes });
    expect(heard.steps).toHaveLength(6);
    expect(heard.stop).toBeCloseTo(1.5, 9);
  });

  it("never has a step that takes no time, whatever is asked", () => {
    const note = fc.record({
      note: fc.constantFrom(...CHANTER_NOTES),
      gracenotes: fc.array(fc.constantFrom<PlainNote>("low-g", "d", "high-g"), { maxLength: 8 }),
      seconds: fc.double({ min: 0.01, max: 5, noNaN: true }),
    });
    fc.assert(
      fc.property(fc.option(note), fc.array(note, { minLength: 1, maxLength: 3 }), (before, notes) => {
        const span = heardGroup({ setup, before, notes });
        const times = [...span.steps.map(({ at }) => at), span.stop];
        for (const [index, time] of times.slice(1).entries()) expect(time).toBeGreaterThan(times[index] as number);
      }),
      { seed: 20261125, numRuns: 500 },
    );
  });
});
