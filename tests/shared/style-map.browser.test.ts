import { html, render } from "lit";
import { beforeEach, expect, test } from "vitest";
import { type StyleProperties, styleMap } from "../../components/shared/style-map.ts";

let place: HTMLElement;
beforeEach(() => {
  place = document.createElement("div");
});

function rendered(properties: StyleProperties): HTMLElement {
  render(html`<p style=${styleMap(properties)}></p>`, place);
  return place.querySelector("p") as HTMLElement;
}

test("properties are set, changed and taken away, whatever way they are named", () => {
  const element = rendered({ left: "8px", "--fill": "20%", inlineSize: "40px" });
  expect(element.style.cssText).toBe("left: 8px; --fill: 20%; inline-size: 40px;");
  rendered({ left: "9px", inlineSize: "40px" });
  expect(element.style.cssText).toBe("left: 9px; inline-size: 40px;");
});

test("nothing goes through the style attribute, which the page's policy refuses", () => {
  const before = Element.prototype.setAttribute;
  const written: string[] = [];
  Element.prototype.setAttribute = function setAttribute(name, value) {
    written.push(name);
    before.call(this, name, value);
  };
  try {
    rendered({ left: "8px" });
    rendered({ left: "9px" });
  } finally {
    Element.prototype.setAttribute = before;
  }
  expect(written).not.toContain("style");
});
