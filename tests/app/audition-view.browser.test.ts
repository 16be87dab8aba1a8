import { afterEach, describe, expect, test } from "vitest";
import { userEvent } from "vitest/browser";
import "../../components/shared/tokens.css";
import "../../components/app/audition-view.ts";
import type { AuditionKeptEvent, AuditionView } from "../../components/app/audition-view.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import { defaultSetup } from "../../src/pipes/default-setups.ts";
import type { Moment } from "../../src/score/address.ts";
import type { Edit } from "../../src/score/edit.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeScore, secondFrame, withFiddle } from "../support/playback-scores.ts";
import { expectAccessible } from "../support/sound-page.ts";
import { concertNote, pipeNote } from "../support/written-music.ts";

const at = { line: "pipes", bar: 0, at: ticks(1920) };
const moment = (bar: number, tick: number): Moment => ({ bar, at: ticks(tick) });

/** E and high G in a B tune, the dominant struck under them; then high A. */
function sketch(): Score {
  const frame = secondFrame({ key: { tonic: "B", mode: "mixolydian" }, chords: [{ at: ticks(0), symbol: "F#m" }] });
  const pipes = pipeScore(
    [[pipeNote("e", 1920, { strikeIn: true }), pipeNote("high-g", 1920)], [pipeNote("high-a", 3840, { cutOff: true })]],
    {
      frames: [frame, { ...frame, chords: [] }],
      setup: defaultSetup("B"),
    },
  );
  return withFiddle(pipes, [[concertNote("A4 C#5", 3840)], [concertNote("B4", 3840)]]);
}

afterEach(() => {
  document.body.replaceChildren();
  document.documentElement.removeAttribute("data-theme");
});

async function open(score = sketch()) {
  const view = document.createElement("audition-view") as AuditionView;
  const begun: Score[] = [];
  const heard: { score: Score; when: string }[] = [];
  const kept: (readonly Edit[])[] = [];
  /** How often it had begun when it was stopped. */
  const stops: number[] = [];
  let next: Moment | null = moment(0, 960);
  Object.assign(view, { score, at });
  view.sound = {
    begin: async (one) => void begun.push(one),
    hear: (one, when) => {
      heard.push({ score: one, when });
      return next;
    },
    stop: () => void stops.push(begun.length),
  };
  view.addEventListener("audition-kept", (event) => kept.push((event as AuditionKeptEvent).detail.edits));
  document.body.append(view);
  await view.show();
  await view.updateComplete;
  const root = view.shadowRoot as ShadowRoot;
  const columns = () => [...root.querySelectorAll<HTMLElement>(".version")];
  return {
    view,
    root,
    begun,
    stops,
    heard,
    kept,
    columns,
    said: (element: Element | null | undefined) => (element?.textContent ?? "").replace(/\s+/g, " ").trim(),
    heardNext: (place: Moment | null) => {
      next = place;
    },
    settled: () => view.updateComplete,
  };
}

const notesOf = (score: Score) => pipeLines(score)[0]?.bars[0]?.events.map((event) => (event.kind === "note" ? event.note : "rest"));

describe("the audition of a high G in written A", () => {
  test("has a column for the flat seventh, the leading tone, and one after the other, and lets the first sound at once", async () => {
    const { columns, said, begun, root } = await open();
    expect(said(root.querySelector("h2"))).toBe("Flat seventh or leading tone?");
    expect(columns().map((column) => said(column.querySelector(".played")))).toEqual([
      "high G. The band plays F♯m.",
      "high G♯, cross-fingered. The band plays F♯.",
      "high G, then high G♯, cross-fingered. The band plays F♯.",
    ]);
    expect(begun.map(notesOf)).toEqual([["e", "high-g"]]);
    expect(said(columns()[0]?.querySelector(".state"))).toBe("sounding now");
    for (const column of columns()) {
      expect(column.querySelector("svg.snippet path.note")).not.toBeNull();
      expect(column.querySelector("svg.curve")?.getAttribute("aria-label")).toMatch(/^Roughness \d/);
    }
  });

  test("asks for another version by its figure, to be heard from the next beat on, and says when it is", async () => {
    const { columns, said, heard, view, settled } = await open();
    view.moveTo(moment(0, 100));
    await userEvent.keyboard("2");
    await settled();
    expect(heard.map(({ score, when }) => [notesOf(score), when])).toEqual([[["e", "high-g-sharp"], "beat"]]);
    expect(said(columns()[1]?.querySelector(".state"))).toBe("next, on the beat");
    view.moveTo(moment(0, 500));
    await settled();
    expect(said(columns()[1]?.querySelector(".state"))).toBe("next, on the beat");
    view.moveTo(moment(0, 970));
    await settled();
    expect(said(columns()[1]?.querySelector(".state"))).toBe("sounding now");
    expect(said(columns()[0]?.querySelector(".state"))).toBe("press 1");
  });

  test("a version asked for at the end of the loop is heard once it has gone round", async () => {
    const { columns, said, view, settled, heardNext } = await open();
    view.moveTo(moment(1, 3800));
    heardNext(moment(0, 0));
    await userEvent.keyboard("3");
    view.moveTo(moment(1, 3830));
    await settled();
    expect(said(columns()[2]?.querySelector(".state"))).toBe("next, on the beat");
    view.moveTo(moment(0, 20));
    await settled();
    expect(said(columns()[2]?.querySelector(".state"))).toBe("sounding now");
  });

  test("shows the figures: septimal high G 31 cents under the band, on the bass's 7th partial, and the fingers' way in and out", async () => {
    const { columns, said } = await open();
    const rows = said(columns()[0]?.querySelector("dl"));
    expect(rows).toContain("Off the band−31 cents");
    expect(rows).toContain("0 from the bass’s 7th");
    expect(rows).toMatch(/Way in.*Way outthumb lifts/);
  });

  test("using a version hands over its edits as one step, and the score, chord and setup follow", async () => {
    const { kept, root } = await open();
    await userEvent.keyboard("2");
    (root.querySelector(".foot .btn.main") as HTMLButtonElement).click();
    expect(kept).toHaveLength(1);
    const applied = applyEdits(sketch(), kept[0] ?? []);
    if (!applied.ok) throw new Error(applied.reason);
    expect(notesOf(applied.value)).toEqual(["e", "high-g-sharp"]);
    expect(applied.value.frames[0]?.chords[0]?.symbol).toBe("F#");
    expect(pipeLines(applied.value)[0]?.setup.crossFingerings.find(({ note }) => note === "high-g-sharp")?.speaks).toBe(true);
    expect((root.querySelector("dialog") as HTMLDialogElement).open).toBe(false);
  });

  test("the cross-fingering's pitch is heard while its slider moves, and kept once when it is let go", async () => {
    const { root, heard, kept, settled } = await open();
    await userEvent.keyboard("2");
    const before = heard.length;
    const slider = root.querySelector<HTMLInputElement>('.sliders input[aria-valuetext^="Pitch"]') as HTMLInputElement;
    for (const value of ["1080", "1075"]) {
      slider.value = value;
      slider.dispatchEvent(new Event("input"));
    }
    await settled();
    expect(heard.slice(before).map(({ when }) => when)).toEqual(["soon", "soon"]);
    slider.dispatchEvent(new Event("change"));
    expect(kept).toHaveLength(1);
    expect(kept[0]?.[0]).toMatchObject({ kind: "setup", line: "pipes" });
  });

  test("stops when told, and begins again with the version that is pressed next", async () => {
    const { columns, said, root, begun, stops, heard, settled } = await open();
    [...root.querySelectorAll<HTMLButtonElement>(".asked .btn")].find(({ textContent }) => textContent === "Stop")?.click();
    await settled();
    expect(stops).toEqual([1]);
    expect(said(columns()[0]?.querySelector(".state"))).toBe("stopped");
    await userEvent.keyboard("2");
    await settled();
    expect(heard).toEqual([]);
    expect(begun.map(notesOf)).toEqual([
      ["e", "high-g"],
      ["e", "high-g-sharp"],
    ]);
    expect(said(columns()[1]?.querySelector(".state"))).toBe("sounding now");
  });

  test("with the chord a piano strikes it, with drones only nobody else plays", async () => {
    const { root, heard, settled } = await open();
    const press = async (words: string) => {
      [...root.querySelectorAll<HTMLButtonElement>("header .choices button")].find(({ textContent }) => textContent === words)?.click();
      await settled();
    };
    await press("Drones only");
    await press("With the chord");
    expect(heard.map(({ score }) => score.lines.map((line) => (line.kind === "concert" ? line.player : "pipes")))).toEqual([
      ["pipes"],
      ["pipes", "piano"],
    ]);
  });

  test.each(["light", "dark"] as const)("axe finds nothing in it, %s", async (theme) => {
    document.documentElement.dataset.theme = theme;
    await open();
    await expectAccessible();
  });
});
