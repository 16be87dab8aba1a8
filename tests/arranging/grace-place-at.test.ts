import fc from "fast-check";
import { expect, it } from "vitest";
import type { GracePlace } from "../../src/arranging/grace-place.ts";
import { gracePlaceAt, placesAfter } from "../../src/arranging/grace-place-at.ts";
import { graceSites } from "../../src/arranging/grace-sites.ts";
import { pipeLines } from "../../src/score/line-of.ts";
import { placedEvents } from "../../src/score/placed-events.ts";
import type { Score } from "../../src/score/score.ts";
import { cases } from "../support/cases.ts";
import { at, pipeSketch } from "../support/pipe-sketch.ts";
import { draws, scoreFrom } from "../support/random-music.ts";

/** What both ways of looking must agree on. */
function facts({ address, note, seconds, before }: GracePlace) {
  const place = ({ bar, at: time }: GracePlace["address"]) => `${bar}:${time}`;
  return {
    at: place(address),
    note,
    seconds: Math.round(seconds * 1e9),
    before: before.map((one) => (one === null ? null : `${place(one.address)} ${Math.round(one.seconds * 1e9)}`)).sort(),
  };
}

function expectSame(score: Score): number {
  let places = 0;
  for (const line of pipeLines(score)) {
    const sites = [...graceSites(score, line)];
    let head: GracePlace | null = null;
    for (const [bar, own] of line.bars.entries()) {
      for (const { at: time, event } of placedEvents(own)) {
        const found = gracePlaceAt(score, line, { bar, at: time });
        if (event.kind === "rest") {
          expect(found).toBeNull();
          continue;
        }
        if (sites[0]?.address.bar === bar && sites[0].address.at === time) head = sites.shift() ?? null;
        expect(found && facts(found), `bar ${bar} at ${time}`).toEqual(head && facts(head));
        places += 1;
      }
    }
  }
  return places;
}

it("a place found by looking around one moment is the one found by walking the whole line, repeats and ties included", () => {
  let places = 0;
  fc.assert(
    fc.property(draws, (numbers) => {
      places += expectSame(scoreFrom(numbers));
    }),
    { seed: 20261125, numRuns: cases(300, 5000) },
  );
  expect(places).toBeGreaterThan(1000);
});

it("the notes that follow are found through ties and held rests, up to a cut-off", () => {
  const score = pipeSketch("B2! B2- B2 z2 | c2. d2! e4");
  const [line] = pipeLines(score);
  if (line === undefined) throw new RangeError("no pipes");
  const place = gracePlaceAt(score, line, at(0, 0)) as GracePlace;
  expect(placesAfter(score, line, place, 9).map(({ address, note }) => [address.bar, address.at / 480, note.note])).toEqual([
    [0, 2, "b"],
    [1, 0, "c"],
  ]);
});

it("one note of a line of 2,000 bars is looked at no longer than one of 20: what is read does not grow", () => {
  const bars = (count: number) => pipeSketch(Array.from({ length: count }, () => "B2 c2 d2 e2").join(" | "));
  const read = (count: number) => {
    const score = bars(count);
    const [line] = pipeLines(score);
    if (line === undefined) throw new RangeError("no pipes");
    gracePlaceAt(score, line, at(count - 2, 2));
    let asked = 0;
    const counting: ProxyHandler<typeof line.bars> = {
      get(target, key) {
        asked += 1;
        return Reflect.get(target, key);
      },
    };
    gracePlaceAt(score, { ...line, bars: new Proxy(line.bars, counting) }, at(count - 2, 2));
    return asked;
  };
  expect(read(2000)).toBe(read(20));
});
