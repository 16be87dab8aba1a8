import { afterEach, expect, test } from "vitest";
import { page, userEvent } from "vitest/browser";
import "../../components/sound/blend-panel.ts";
import type { FilledBlank } from "../../components/shared/filled-blank.ts";
import type { BlendChangedEvent, BlendPanel, ToneAskedEvent } from "../../components/sound/blend-panel.ts";
import { type Blend, isAlone, levelOf, placeOf } from "../../src/playback/blend.ts";
import { pipeScore, withFiddle } from "../support/playback-scores.ts";
import { expectAccessible, onPaper } from "../support/sound-page.ts";
import { pipeNote, rest } from "../support/written-music.ts";

const score = withFiddle(pipeScore([[pipeNote("e", 3840)]]), [[rest(3840)]]);

afterEach(() => document.body.replaceChildren());

async function panel(theme: "light" | "dark" = "light"): Promise<{ readonly element: BlendPanel; readonly told: Blend[] }> {
  const element = document.createElement("blend-panel");
  element.score = score;
  const told: Blend[] = [];
  element.addEventListener("blend-changed", (event) => told.push((event as BlendChangedEvent).detail.blend));
  onPaper(element, theme);
  await element.updateComplete;
  return { element, told };
}

/** A voice's name opens what else can be said of it; that of the whole is only a name. */
function nameOf(row: Element): string | undefined {
  return row.querySelector("filled-blank")?.words ?? row.querySelector(".name")?.textContent?.trim();
}

test("each voice has a slider and a reading; the click is silent at first", async () => {
  const { element } = await panel();
  const rows = [...(element.shadowRoot?.querySelectorAll(".voice") ?? [])];
  expect(rows.map((row) => [nameOf(row), row.querySelector(".reading")?.textContent])).toEqual([
    ["Chanter", "−6 dB"],
    ["Drones", "−14 dB"],
    ["fiddle", "−8 dB"],
    ["Click", "silent"],
    ["All together", "−18 dB"],
  ]);
});

test("an arrow key on a slider moves its voice by a decibel, and only that one", async () => {
  const { told } = await panel();
  const slider = page.getByLabelText("Level of Drones");
  (slider.element() as HTMLInputElement).focus();
  await userEvent.keyboard("{ArrowLeft}{ArrowLeft}{ArrowRight}");
  expect(told.map((blend) => levelOf(blend, { kind: "drones", line: "pipes" }, score).decibels)).toEqual([-15, -16, -15]);
  expect(levelOf(told.at(-1) as Blend, { kind: "line", line: "pipes" }, score).decibels).toBe(-6);
  await expect.element(slider).toHaveAttribute("aria-valuetext", "−15 dB");
});

test("pressing a reading mutes its voice and pressing it again brings the level back; a slider's end is silence too", async () => {
  const { element, told } = await panel();
  const reading = element.shadowRoot?.querySelector(".reading") as HTMLButtonElement;
  reading.click();
  await element.updateComplete;
  expect([reading.textContent, reading.getAttribute("aria-pressed")]).toEqual(["silent", "true"]);
  reading.click();
  await element.updateComplete;
  expect(reading.textContent).toBe("−6 dB");
  const slider = page.getByLabelText("Level of fiddle");
  (slider.element() as HTMLInputElement).focus();
  await userEvent.keyboard("{Home}");
  expect(levelOf(told.at(-1) as Blend, { kind: "line", line: "fiddle" }, score).decibels).toBe(-48);
  await expect.element(slider).toHaveAttribute("aria-valuetext", "silent");
});

test("the line on hearing is always there, and a press away the published table with its source", async () => {
  const { element } = await panel();
  expect(element.shadowRoot?.querySelector(".hearing")?.textContent).toContain(
    "Starts quiet. Pipes at the ear are commonly put near 100 dB(A):",
  );
  const word = element.shadowRoot?.querySelector<FilledBlank>(".hearing filled-blank");
  word?.show();
  await word?.updateComplete;
  const table = element.shadowRoot?.querySelector(".exposures");
  expect([...(table?.querySelectorAll("tbody tr") ?? [])].map((row) => row.textContent)).toContain("10015 minutes");
  expect(word?.textContent).toMatch(/^\s*Local noise-at-work rules come first\..*NIOSH 98-126/s);
});

test.each(["light", "dark"] as const)("axe finds nothing against WCAG 2.2 AA in the blend, %s, the table open or not", async (theme) => {
  const { element } = await panel(theme);
  await expectAccessible();
  const word = element.shadowRoot?.querySelector<FilledBlank>(".hearing filled-blank");
  word?.show();
  await word?.updateComplete;
  await expectAccessible();
});

async function voicePanel(element: BlendPanel, name: string): Promise<ShadowRoot> {
  const blank = [...(element.shadowRoot?.querySelectorAll<FilledBlank>(".name filled-blank") ?? [])].find(({ label }) => label === name);
  blank?.show();
  await blank?.updateComplete;
  return blank?.firstElementChild?.shadowRoot as ShadowRoot;
}

test("a voice's name opens where it stands and whether it is heard alone, which its name then says", async () => {
  const { element, told } = await panel();
  const inside = await voicePanel(element, "fiddle");
  const place = inside.querySelector<HTMLInputElement>('input[type="range"]') as HTMLInputElement;
  expect(place.getAttribute("aria-valuetext")).toBe("35 % left");
  place.value = "20";
  place.dispatchEvent(new Event("input"));
  expect(placeOf(told.at(-1) as Blend, { kind: "line", line: "fiddle" }, score)).toBeCloseTo(0.2, 9);
  await element.updateComplete;
  inside.querySelector<HTMLInputElement>('input[type="checkbox"]')?.click();
  expect(isAlone(told.at(-1) as Blend, { kind: "line", line: "fiddle" })).toBe(true);
  await element.updateComplete;
  expect([...(element.shadowRoot?.querySelectorAll<FilledBlank>(".name filled-blank") ?? [])].map(({ words }) => words)).toContain(
    "fiddle, alone",
  );
});

test("each drone is silenced and heard by itself, tenors told apart", async () => {
  const { element, told } = await panel();
  const inside = await voicePanel(element, "Drones");
  const ticks = [...inside.querySelectorAll<HTMLLabelElement>("fieldset label")];
  expect(ticks.map(({ textContent }) => textContent?.trim())).toEqual(["first tenor", "second tenor", "bass"]);
  ticks[1]?.querySelector("input")?.click();
  expect(told.at(-1)?.silentDrones).toEqual({ pipes: [1] });
});

test("a tone to tune to is asked for with its hertz, and stopped by the same word", async () => {
  const { element } = await panel();
  const asked: ToneAskedEvent["detail"][] = [];
  element.addEventListener("tone-asked", (event) => {
    const { detail } = event as ToneAskedEvent;
    asked.push(detail);
    element.tone = detail.tone;
  });
  const tenor = () => element.shadowRoot?.querySelector<HTMLButtonElement>('[aria-label^="Tuning tone, tenor, B♭3, 233.1 Hz"]');
  tenor()?.click();
  await element.updateComplete;
  expect(asked[0]?.tone).toMatchObject({ name: "tenor", voice: "drone" });
  expect(tenor()?.getAttribute("aria-pressed")).toBe("true");
  tenor()?.click();
  expect(asked[1]?.tone).toBeNull();
});

test("the room is left and entered by one word, and axe finds nothing in a voice's panel", async () => {
  const { element, told } = await panel();
  (page.getByText("In a small room").element() as HTMLButtonElement).click();
  expect(told.at(-1)?.room).toBeNull();
  await element.updateComplete;
  await voicePanel(element, "Drones");
  await expectAccessible();
});

test("a meter under each slider shows how strong its voice comes out, from nothing at −48 dB to full at 0", async () => {
  const { element } = await panel();
  element.showLevels(
    new Map([
      ["line pipes", -12],
      ["master", 3],
    ]),
  );
  const out = (voice: string) =>
    element.shadowRoot?.querySelector<HTMLElement>(`.meter[data-voice="${voice}"]`)?.style.getPropertyValue("--out");
  expect([out("line pipes"), out("drones pipes"), Number(out("master")) >= 1]).toEqual(["0.75", "0", true]);
});
