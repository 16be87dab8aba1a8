import { afterEach, expect, test } from "vitest";
import "../../components/notation/print-pages.ts";
import { pagesOf } from "../../src/engraving/pages.ts";
import type { Line } from "../../src/score/score.ts";
import { lanternScore } from "../support/lantern-score.ts";

afterEach(() => document.body.replaceChildren());

test("printing lays out one sheet a page in the body, in ink alone, and puts them away again", async () => {
  const score = lanternScore("B");
  const preview = document.createElement("print-pages");
  const pages = pagesOf(score, score.lines[0] as Line, "letter");
  Object.assign(preview, { pages, label: "Pipes" });
  document.body.append(preview);
  await preview.updateComplete;
  expect(preview.shadowRoot?.querySelector("svg")?.getAttribute("aria-label")).toBe(`Pipes, page 1 of ${pages.length}`);
  expect(preview.shadowRoot?.querySelectorAll("svg")).toHaveLength(pages.length);

  window.dispatchEvent(new Event("beforeprint"));
  const sheets = document.querySelector(".print-sheets");
  const printed = [...(sheets?.shadowRoot?.querySelectorAll("svg") ?? [])];
  expect(printed.map((page) => page.getAttribute("width"))).toEqual(pages.map(() => "215.9mm"));
  const rules = document.adoptedStyleSheets.flatMap((sheet) => [...sheet.cssRules].map((rule) => rule.cssText));
  expect(rules.join(" ")).toContain("size: 215.9mm 279.4mm");

  window.dispatchEvent(new Event("afterprint"));
  expect(document.querySelector(".print-sheets")).toBeNull();
});
