import { css, html, LitElement, nothing, type PropertyValues } from "lit";
import { MILLIMETRES, PAPER_SIZE, type PageDrawing, type Paper } from "../../src/engraving/page-drawing.ts";
import { pagesOf } from "../../src/engraving/pages.ts";
import type { LineId } from "../../src/score/line-id.ts";
import { lineOf } from "../../src/score/line-of.ts";
import type { Score } from "../../src/score/score.ts";
import { barElement, svgElement } from "./bar-element.ts";
import { inkStyles } from "./notation-styles.ts";

/** The pages of one part, on the screen as they will be printed, and printed each on its own sheet. */
export class PrintPages extends LitElement {
  static override properties = { score: { attribute: false }, line: { attribute: false }, paper: { attribute: false } };

  declare score: Score;
  declare line: LineId;
  declare paper: Paper;
  /** Only the document can say how large its sheets are. */
  readonly #sheetRule = new CSSStyleSheet();

  constructor() {
    super();
    this.line = "";
    this.paper = "a4";
  }

  static override styles = [
    inkStyles,
    css`
      :host {
        --line: #000;
        --ink: #000;
        --ink-2: #000;
        display: grid;
        justify-items: center;
        gap: 24px;
      }
      svg {
        background: #fff;
        max-inline-size: 100%;
        block-size: auto;
        box-shadow: var(--shadow-sheet);
      }
      @media print {
        :host {
          display: block;
        }
        svg {
          max-inline-size: none;
          box-shadow: none;
          break-after: page;
          break-inside: avoid;
        }
        svg:last-child {
          break-after: auto;
        }
      }
    `,
  ];

  override connectedCallback(): void {
    super.connectedCallback();
    document.adoptedStyleSheets.push(this.#sheetRule);
  }

  override disconnectedCallback(): void {
    super.disconnectedCallback();
    document.adoptedStyleSheets = document.adoptedStyleSheets.filter((sheet) => sheet !== this.#sheetRule);
  }

  override render() {
    const line = this.score === undefined ? null : lineOf(this.score, this.line);
    if (line === null) return nothing;
    const pages = pagesOf(this.score, line, this.paper);
    return html`${pages.map((page, index) => pageElement(page, `${line.name}, page ${index + 1} of ${pages.length}`))}`;
  }

  protected override updated(_changed: PropertyValues): void {
    const [width, height] = PAPER_SIZE[this.paper];
    this.#sheetRule.replaceSync(`@page { size: ${width}mm ${height}mm; margin: 0; }`);
  }
}

function pageElement(page: PageDrawing, label: string): SVGSVGElement {
  const svg = svgElement("svg", {
    role: "img",
    "aria-label": label,
    viewBox: `0 0 ${page.width} ${page.height}`,
    width: `${page.width * MILLIMETRES}mm`,
    height: `${page.height * MILLIMETRES}mm`,
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
