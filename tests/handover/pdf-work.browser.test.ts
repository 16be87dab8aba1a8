import { afterEach, expect, test } from "vitest";
import { type Busy, PdfWork } from "../../components/handover/pdf-work.ts";
import type { PageDrawing } from "../../src/engraving/page-drawing.ts";
import { type Handout, handoutOf } from "../../src/exchange/handouts.ts";
import { pdfOf } from "../../src/exchange/pdf.ts";
import { lanternScore } from "../support/lantern-score.ts";

const score = lanternScore("B");
const handouts = score.lines.map((line) => handoutOf(score, line, "part", { paper: "a4", chords: false }));
const [pipes] = handouts as [Handout];

/** A handout of so many pages, all alike. */
const longHandout = (count: number): Handout => ({
  ...pipes,
  pages: Array.from({ length: count }, () => pipes.pages[0] as PageDrawing),
});

let work: PdfWork;
afterEach(() => work.close());

/** Work that notes down everything it tells. */
function newWork(onBusy: (busy: Busy) => void = () => {}) {
  const told: { busy: (Busy | null)[]; made: { name: string; bytes: Uint8Array }[] } = { busy: [], made: [] };
  work = new PdfWork({
    busy: (busy) => {
      told.busy.push(busy);
      if (busy !== null) onBusy(busy);
    },
    made: (name, bytes) => told.made.push({ name, bytes }),
  });
  return told;
}

test("a file is made in the worker, byte for byte as the page itself would make it", async () => {
  const told = newWork();
  expect(await work.make(score, [pipes])).toEqual({ kind: "done", without: [] });
  expect(told.made.map(({ name }) => name)).toEqual(["Paper Lantern Weather - Pipes, revision 12.pdf"]);
  const own = await pdfOf(pipes.pages, { title: score.title, player: "Pipes", revision: 12 });
  expect(told.made[0]?.bytes).toEqual(own);
});

test("everybody's parts come one after the other, in score order", async () => {
  const told = newWork();
  await work.make(score, handouts);
  expect(told.made.map(({ name }) => name)).toEqual(handouts.map(({ fileName }) => `${fileName}.pdf`));
});

test("work under 300 ms is not shown; longer work is, with a share that only grows, until it is done", async () => {
  const told = newWork();
  await work.make(score, [pipes]);
  told.busy.length = 0;
  const began = performance.now();
  await work.make(score, [pipes]);
  // The worker is warm by now, so this holds on any machine that is not held up.
  if (performance.now() - began < 300) expect(told.busy).toEqual([null]);
  told.busy.length = 0;
  await work.make(score, [longHandout(400)]);
  const shares = told.busy.flatMap((busy) => busy?.share ?? []);
  expect(shares.length).toBeGreaterThan(2);
  expect(shares).toEqual(shares.toSorted((one, other) => one - other));
  expect(told.busy.at(-1)).toBeNull();
});

test("stopped work hands nothing out, says so, and the next file is made all the same", async () => {
  let stopped = false;
  const told = newWork((busy) => {
    if (stopped || busy.share === 0) return;
    stopped = true;
    work.stop();
  });
  expect(await work.make(score, [longHandout(2_000)])).toEqual({ kind: "stopped", made: 0 });
  expect(told.made).toEqual([]);
  expect(told.busy.at(-1)).toBeNull();
  expect(await work.make(score, [pipes])).toMatchObject({ kind: "done" });
  expect(told.made).toHaveLength(1);
});

test("letters that no font has are told when the files are there", async () => {
  newWork();
  const night = { ...score, title: "Night 紙" };
  const [line] = night.lines;
  if (line === undefined) throw new RangeError("a sketch has a line");
  expect(await work.make(night, [handoutOf(night, line, "part", { paper: "a4", chords: false })])).toEqual({
    kind: "done",
    without: ["紙"],
  });
});
