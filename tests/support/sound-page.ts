import axe from "axe-core";
import { expect } from "vitest";
import "../../components/shared/tokens.css";

/** Puts an element on paper, in one theme. */
export function onPaper(element: HTMLElement, theme: "light" | "dark" = "light"): void {
  document.documentElement.dataset.theme = theme;
  document.documentElement.lang = "en";
  document.body.replaceChildren(element);
}

/** Expects that axe finds nothing against WCAG 2.2, A and AA, in the page as it is; page-wide rules aside, since an element is not a page. */
export async function expectAccessible(): Promise<void> {
  const { violations } = await axe.run(document.body, {
    runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa"],
  });
  expect(
    violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html, failureSummary }) => `${html} ${failureSummary}`).join("; ")}`),
  ).toEqual([]);
}
