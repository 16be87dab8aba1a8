import { afterEach, expect, test } from "vitest";
import { page, userEvent } from "vitest/browser";
import "../../components/sound/transport-bar.ts";
import type { TransportBar } from "../../components/sound/transport-bar.ts";
import { stretchOfBars, USUAL_SETTINGS } from "../../src/playback/play-settings.ts";
import { ticks } from "../../src/units/ticks.ts";
import { pipeScore } from "../support/playback-scores.ts";
import { expectAccessible, onPaper } from "../support/sound-page.ts";
import { pipeNote } from "../support/written-music.ts";

const score = pipeScore(Array.from({ length: 8 }, () => [pipeNote("e", 3840)]));
const NEWS = ["play-asked", "stop-asked", "tempo-changed", "loop-changed", "count-in-changed", "manner-changed"] as const;
const moment = (bar: number, at: number) => ({ bar, at: ticks(at) });

afterEach(() => document.body.replaceChildren());

async function transport(given: Partial<TransportBar> = {}, theme: "light" | "dark" = "light") {
  const element = Object.assign(document.createElement("transport-bar"), { score, ...given });
  const told: (readonly [string, unknown])[] = [];
  for (const news of NEWS) element.addEventListener(news, (event) => told.push([news, (event as CustomEvent).detail]));
  onPaper(element, theme);
  await element.updateComplete;
  const blank = async (label: string) => {
    const found = [...(element.shadowRoot?.querySelectorAll("filled-blank") ?? [])].find((one) => one.label === label);
    if (found === undefined) throw new RangeError(label);
    found.show();
    await found.updateComplete;
    return found;
  };
  return { element, told, blank };
}

test("the round button asks to play from the start, or the loop from its own, and to stop while it plays", async () => {
  const { element, told } = await transport();
  await userEvent.click(page.getByRole("button", { name: "Play" }));
  element.settings = { ...USUAL_SETTINGS, loop: stretchOfBars(score, 2, 3) };
  await element.updateComplete;
  await userEvent.click(page.getByRole("button", { name: "Play" }));
  element.playing = true;
  await element.updateComplete;
  await userEvent.click(page.getByRole("button", { name: "Stop" }));
  expect(told).toEqual([
    ["play-asked", { from: moment(0, 0) }],
    ["play-asked", { from: moment(2, 0) }],
    ["stop-asked", null],
  ]);
});

test("from here begins where the hand is, and is not offered while it plays", async () => {
  const { element, told } = await transport({ here: moment(4, 1920) });
  await userEvent.click(page.getByRole("button", { name: "from here" }));
  expect(told).toEqual([["play-asked", { from: moment(4, 1920) }]]);
  element.playing = true;
  await element.updateComplete;
  expect(page.getByRole("button", { name: "from here" }).query()).toBeNull();
});

test("bar and beat read what is heard", async () => {
  const { element } = await transport({ playing: true, moment: moment(5, 2000) });
  const reading = () => element.shadowRoot?.querySelector(".reading")?.textContent;
  expect(reading()).toBe("bar 6 beat 3");
  element.moment = moment(7, 0);
  await element.updateComplete;
  expect(reading()).toBe("bar 8 beat 1");
});

test("the tempo is set by slider or figure, within 40 and 150 percent", async () => {
  const { told, blank } = await transport();
  const panel = await blank("Tempo and count-in");
  const slider = panel.querySelector("input[type=range]") as HTMLInputElement;
  slider.focus();
  await userEvent.keyboard("{ArrowLeft}");
  const figure = panel.querySelector("input[type=number]") as HTMLInputElement;
  figure.value = "400";
  figure.dispatchEvent(new Event("change"));
  figure.value = "72";
  figure.dispatchEvent(new Event("change"));
  expect(told).toEqual([
    ["tempo-changed", { tempoPercent: 99 }],
    ["tempo-changed", { tempoPercent: 150 }],
    ["tempo-changed", { tempoPercent: 72 }],
  ]);
});

test("a loop of bars is set by their numbers, either way round, and taken away again", async () => {
  const { element, told, blank } = await transport();
  const panel = await blank("Loop");
  const [first, last] = [...panel.querySelectorAll("input")];
  if (first === undefined || last === undefined) throw new RangeError("two fields");
  first.value = "6";
  last.value = "3";
  (panel.querySelector("button[type=submit]") as HTMLButtonElement).click();
  expect(told).toEqual([["loop-changed", { loop: stretchOfBars(score, 2, 5) }]]);
  element.settings = { ...USUAL_SETTINGS, loop: stretchOfBars(score, 2, 5) };
  await element.updateComplete;
  expect(panel.words).toBe("loop bars 3 to 6");
  await blank("Loop");
  [...panel.querySelectorAll("button")].find((button) => button.textContent === "No loop")?.click();
  expect(told.at(-1)).toEqual(["loop-changed", { loop: null }]);
});

test("a chosen stretch can be looped as it is", async () => {
  const chosen = { from: moment(1, 960), to: moment(2, 1920) };
  const { told, blank } = await transport({ chosen });
  const panel = await blank("Loop");
  [...panel.querySelectorAll("button")].find((button) => button.textContent === "Loop what is chosen")?.click();
  expect(told).toEqual([["loop-changed", { loop: chosen }]]);
});

test("the count-in is ticked beside the tempo, and the sentence says so", async () => {
  const { element, told, blank } = await transport();
  const panel = await blank("Tempo and count-in");
  await userEvent.click(panel.querySelector("input[type=checkbox]") as HTMLInputElement);
  expect(told).toEqual([["count-in-changed", { countIn: true }]]);
  /** What stands after the blank in the sentence. */
  const words = () =>
    [...(element.shadowRoot?.querySelector(".setting")?.childNodes ?? [])]
      .filter((node) => node.nodeType === Node.TEXT_NODE)
      .map(({ textContent }) => textContent)
      .join("")
      .trim();
  expect(words()).toBe("tempo");
  element.settings = { ...USUAL_SETTINGS, countIn: true };
  await element.updateComplete;
  expect(words()).toBe("tempo, counted in");
});

test("while the sound is fetched the button is busy and says stop, and what went wrong is told", async () => {
  const { element, told } = await transport({ loading: true });
  const button = page.getByRole("button", { name: "Stop" });
  expect(button.element().getAttribute("aria-busy")).toBe("true");
  await userEvent.click(button);
  expect(told).toEqual([["stop-asked", null]]);
  element.loading = false;
  element.trouble = "Sound could not be started.";
  await element.updateComplete;
  expect(page.getByRole("status").element().textContent).toBe("Sound could not be started.");
});

test("the play button is 44 px wide and high", async () => {
  const { element } = await transport();
  const size = element.shadowRoot?.querySelector(".play")?.getBoundingClientRect();
  expect([size?.width, size?.height]).toEqual([44, 44]);
});

test.each(["light", "dark"] as const)(
  "axe finds nothing against WCAG 2.2 AA in the transport, %s, its panels open or not",
  async (theme) => {
    const { blank } = await transport({ here: moment(2, 0), chosen: { from: moment(1, 0), to: moment(2, 0) } }, theme);
    await expectAccessible();
    for (const label of ["Tempo and count-in", "Loop"]) {
      const panel = await blank(label);
      await expectAccessible();
      panel.hide();
    }
  },
);

test("how the pipes are played is told as it is moved: gracenotes in milliseconds, tenors in beats, drones by bar or beat", async () => {
  const { told, blank } = await transport();
  const panel = await blank("Tempo and count-in");
  const [gracenote, tenors] = [...panel.querySelectorAll<HTMLInputElement>('.manner input[type="range"]')];
  for (const [input, value] of [
    [gracenote, "55"],
    [tenors, "0.3"],
  ] as const) {
    if (input === undefined) throw new Error("no slider");
    input.value = value;
    input.dispatchEvent(new Event("input"));
  }
  const select = panel.querySelector<HTMLSelectElement>(".manner select") as HTMLSelectElement;
  select.value = "beat";
  select.dispatchEvent(new Event("change"));
  expect(told.filter(([name]) => name === "manner-changed")).toEqual([
    ["manner-changed", { gracenoteMs: 55 }],
    ["manner-changed", { unisonBeat: 0.3 }],
    ["manner-changed", { droneLead: "beat" }],
  ]);
});
