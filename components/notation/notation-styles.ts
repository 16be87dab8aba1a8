import { css } from "lit";

/** How ink looks on the screen, for every element that paints drawings. */
export const inkStyles = css`
  svg {
    display: block;
    overflow: hidden;
    fill: var(--ink);
  }
  .staff {
    fill: var(--line);
  }
  .bar-line {
    fill: var(--ink-2);
  }
  .gracenotes {
    fill: var(--ink);
  }
  .words {
    fill: var(--ink-2);
  }
  text {
    font-family: var(--serif);
    font-variant-numeric: tabular-nums lining-nums;
  }
  text.italic {
    font-style: italic;
  }
  text.sans {
    font-family: var(--sans);
    fill: var(--ink-2);
  }
  text.w600 {
    font-weight: 600;
  }
  .note.chosen,
  .note.sounding,
  .note.proposed,
  .gracenotes.proposed,
  .rest.chosen {
    fill: var(--steel);
  }
  .moment {
    fill: var(--steel);
  }
  .ring circle {
    fill: var(--paper);
    stroke: var(--ink);
    stroke-width: 1.25;
  }
  .ring text {
    font: 600 11px/1 var(--sans);
    fill: var(--ink);
    text-anchor: middle;
  }
  .ring.chosen circle {
    fill: var(--ink);
  }
  .ring.chosen text {
    fill: var(--paper);
  }
  @media (forced-colors: active) {
    svg {
      fill: CanvasText;
    }
    .staff {
      fill: GrayText;
    }
    .note.chosen,
    .note.sounding,
    .note.proposed,
    .gracenotes.proposed,
    .moment {
      fill: Highlight;
    }
    .ring circle {
      fill: Canvas;
      stroke: CanvasText;
    }
    .ring text,
    .ring.chosen circle {
      fill: CanvasText;
    }
    .ring.chosen text {
      fill: Canvas;
    }
  }
`;
