import { afterEach, expect, test } from "vitest";
import "../../components/shared/filled-blank.ts";

afterEach(() => document.body.replaceChildren());

test("a pressed blank opens its panel and says so, Escape closes it and gives the focus back", async () => {
  const blank = document.createElement("filled-blank");
  blank.words = "B chanter";
  blank.label = "Chanter";
  blank.innerHTML = "<input>";
  document.body.append(blank);
  await blank.updateComplete;
  const word = blank.shadowRoot?.querySelector("button") as HTMLButtonElement;
  expect(word.textContent).toBe("Chanter: B chanter");
  expect(word.getAttribute("aria-expanded")).toBe("false");

  word.focus();
  word.click();
  await blank.updateComplete;
  expect(word.getAttribute("aria-expanded")).toBe("true");
  expect(document.activeElement).toBe(blank.querySelector("input"));

  const closed = new Promise((resolve) => blank.addEventListener("panel-closed", resolve));
  blank.hide();
  await closed;
  await blank.updateComplete;
  expect(word.getAttribute("aria-expanded")).toBe("false");
  expect(blank.shadowRoot?.activeElement).toBe(word);
});
