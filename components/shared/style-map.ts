import { noChange } from "lit";
import { type AttributePart, Directive, directive, type PartInfo, PartType } from "lit/directive.js";

/** CSS properties with their values, `null` for none; named as in a style sheet (`--fill`, `inline-size`) or as in a script (`inlineSize`). */
export type StyleProperties = Readonly<Record<string, string | null>>;

class StyleMap extends Directive {
  /** What stands on the element, by the names of the style sheet. */
  #known = new Map<string, string>();

  constructor(part: PartInfo) {
    super(part);
    if (part.type !== PartType.ATTRIBUTE || part.name !== "style" || (part.strings?.length ?? 0) > 2) {
      throw new RangeError("styleMap is the whole value of a style attribute");
    }
  }

  override render(_properties: StyleProperties): typeof noChange {
    return noChange;
  }

  override update(part: AttributePart, [properties]: [StyleProperties]): typeof noChange {
    const { style } = part.element as HTMLElement | SVGElement;
    const wanted = new Map<string, string>();
    for (const [name, value] of Object.entries(properties)) if (value !== null) wanted.set(dashed(name), value);
    for (const name of this.#known.keys()) if (!wanted.has(name)) style.removeProperty(name);
    for (const [name, value] of wanted) if (this.#known.get(name) !== value) style.setProperty(name, value);
    this.#known = wanted;
    return noChange;
  }
}

function dashed(name: string): string {
  return name.includes("-") ? name : name.replaceAll(/[A-Z]/g, (letter) => `-${letter.toLowerCase()}`);
}

/**
 * Sets style properties one by one: `style=${styleMap({ left: "8px" })}`. Lit's own directive of this name writes the first values as an
 * attribute, which the page's policy refuses, so that the element stays unstyled.
 */
export const styleMap = directive(StyleMap);
