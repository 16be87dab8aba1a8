import { afterEach, expect, test } from "vitest";
import { page, userEvent } from "vitest/browser";
import "../../components/sound/blend-panel.ts";
import type { BlendChangedEvent, BlendPanel } from "../../components/sound/blend-panel.ts";
import { type Blend, levelOf } from "../../src/playback/blend.ts";
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

test("each voice has a slider and a reading; the click is silent at first", async () => {
  const { element } = await panel();
  const rows = [...(element.shadowRoot?.querySelectorAll(".voice") ?? [])];
  expect(rows.map((row) => [row.querySelector(".name")?.textContent, row.querySelector(".reading")?.textContent])).toEqual([
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
  const word = element.shadowRoot?.querySelector("filled-blank");
  word?.show();
  await word?.updateComplete;
  const table = element.shadowRoot?.querySelector(".exposures");
  expect([...(table?.querySelectorAll("tbody tr") ?? [])].map((row) => row.textContent)).toContain("10015 minutes");
  expect(word?.textContent).toMatch(/^\s*Local noise-at-work rules come first\..*NIOSH 98-126/s);
});

test.each(["light", "dark"] as const)("axe finds nothing against WCAG 2.2 AA in the blend, %s, the table open or not", async (theme) => {
  const { element } = await panel(theme);
  await expectAccessible();
  const word = element.shadowRoot?.querySelector("filled-blank");
  word?.show();
  await word?.updateComplete;
  await expectAccessible();
});
