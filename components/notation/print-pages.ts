import { css, html, LitElement } from "lit";
import { MILLIMETRES, PAPER_SIZE, type PageDrawing } from "../../src/engraving/page-drawing.ts";
import { barElement, svgElement } from "./bar-element.ts";
import { inkStyles } from "./notation-styles.ts";

/** Paper, ink and nothing else. */
const pageStyles = css`
  :host {
    --line: #000;
    --ink: #000;
    --ink-2: #000;
  }
  svg {
    background: #fff;
  }
`;

/** How pages lie on their sheets when printed: one each, none after the last. */
const sheetStyles = css`
  :host {
    display: block;
  }
  svg {
    break-after: page;
    break-inside: avoid;
  }
  svg:last-child {
    break-after: auto;
  }
`;

/**
 * Pages on the screen as they will be printed: a part, or whatever else is handed over on paper. While this element is on the page, printing prints these pages, each on
 * its own sheet, and nothing else.
 */
export class PrintPages extends LitElement {
  static override properties = { pages: { attribute: false }, label: { attribute: false } };

  /** All on the same paper. */
  declare pages: readonly PageDrawing[];
  /** What the pages are, for the screen reader. */
  declare label: string;
  /** Only the document can say how large its sheets are, and hide what is not to be printed. */
  readonly #documentRules = new CSSStyleSheet();
  #sheets: HTMLElement | null = null;

  constructor() {
    super();
    this.pages = [];
    this.label = "";
  }

  static override styles = [
    inkStyles,
    pageStyles,
    css`
      :host {
        display: grid;
        justify-items: center;
        gap: 24px;
      }
      svg {
        max-inline-size: 100%;
        block-size: auto;
        box-shadow: var(--shadow-sheet);
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    document.adoptedStyleSheets.push(this.#documentRules);
    window.addEventListener("beforeprint", this.#layOut);
    window.addEventListener("afterprint", this.#putAway);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== this.#documentRules);
    window.removeEventListener("beforeprint", this.#layOut);
    window.removeEventListener("afterprint", this.#putAway);
    this.#putAway();
  }

  override render() {
    return html`${this.#sheetsOfPages()}`;
  }

  #sheetsOfPages(): readonly SVGSVGElement[] {
    const { pages, label } = this;
    return pages.map((page, index) => pageElement(page, `${label}, page ${index + 1} of ${pages.length}`));
  }

  /**
   * Sheets go straight into the body: a dialog that is open stays in the top layer and cuts at its own edges, and whatever else is laid
   * out would make the browser shrink the pages.
   */
  readonly #layOut = (): void => {
    this.#putAway();
    const [first] = this.pages;
    if (first === undefined) return;
    const sheets = document.createElement("div");
    sheets.className = "print-sheets";
    const root = sheets.attachShadow({ mode: "open" });
    root.adoptedStyleSheets = [inkStyles, pageStyles, sheetStyles].flatMap(({ styleSheet }) => styleSheet ?? []);
    root.append(...this.#sheetsOfPages());
    document.body.append(sheets);
    this.#sheets = sheets;
    const [width, height] = PAPER_SIZE[first.paper];
    this.#documentRules.replaceSync(`
      @page { size: ${width}mm ${height}mm; margin: 0; }
      @media print {
        html, body { margin: 0; background: #fff; }
        body > :not(.print-sheets) { display: none !important; }
      }
      @media screen { .print-sheets { display: none; } }`);
  };

  readonly #putAway = (): void => {
    this.#sheets?.remove();
    this.#sheets = null;
    this.#documentRules.replaceSync("");
  };
}

/** Less than the sheet's own height, which rounding may cut short; a page too tall would bring an empty one after it. */
const SPARE = 0.3;

function pageElement(page: PageDrawing, label: string): SVGSVGElement {
  const svg = svgElement("svg", {
    role: "img",
    "aria-label": label,
    viewBox: `0 0 ${page.width} ${page.height}`,
    width: `${page.width * MILLIMETRES}mm`,
    height: `${page.height * MILLIMETRES - SPARE}mm`,
    preserveAspectRatio: "xMidYMin",
  });
  svg.append(barElement({ width: page.width, groups: page.groups, box: { left: 0, top: 0, right: page.width, bottom: page.height } }));
  for (const { drawing, x, y } of page.staves) {
    const bar = barElement(drawing);
    bar.setAttribute("transform", `translate(${x} ${y})`);
    svg.append(bar);
  }
  return svg;
}

customElements.define("print-pages", PrintPages);

declare global {
  interface HTMLElementTagNameMap {
    "print-pages": PrintPages;
  }
}
