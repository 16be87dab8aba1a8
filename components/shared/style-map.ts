import { noChange } from "lit";
import { Directive, directive, type ElementPart, type PartInfo, PartType } from "lit/directive.js";

/**
 * Sets style properties one by one, on the first render too. Lit's own directive writes a `style` attribute the first time, which the
 * page's policy refuses; it is a violation and leaves the element unstyled.
 */
class StyleMap extends Directive {
  #before: readonly string[] = [];

  constructor(info: PartInfo) {
    super(info);
    if (info.type !== PartType.ATTRIBUTE || info.name !== "style" || (info.strings?.length ?? 0) > 2) {
      throw new RangeError("styleMap stands alone in a style attribute.");
    }
  }

  override render(_properties: Readonly<Record<string, string | null>>): typeof noChange {
    return noChange;
  }

  override update(part: ElementPart, [properties]: [Readonly<Record<string, string | null>>]): typeof noChange {
    const { style } = part.element as HTMLElement;
    for (const name of this.#before) if (!(name in properties)) style.removeProperty(name);
    for (const [name, value] of Object.entries(properties)) {
      if (value === null) style.removeProperty(dashed(name));
      else if (style.getPropertyValue(dashed(name)) !== value) style.setProperty(dashed(name), value);
    }
    this.#before = Object.keys(properties).map(dashed);
    return noChange;
  }
}

/** `inlineSize` and `inline-size` are the same property; those that begin with dashes stay as they are. */
function dashed(name: string): string {
  return name.includes("-") ? name : name.replace(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

/** Style properties of an element, by name; null removes one. Stands alone in its attribute: `style=${styleMap({ left: "8px" })}`. */
export const styleMap = directive(StyleMap);

function asInStyleSheet(name: string): string {
  return name.includes("-") ? name : name.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}
