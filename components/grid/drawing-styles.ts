import { css } from "lit";

/** The drawing: ground, trace, and what lies over it. */
export const drawingStyles = css`
  svg text {
    fill: var(--ink);
    font-family: var(--serif);
    font-variant-numeric: tabular-nums lining-nums;
  }
  .hum {
    fill: var(--hum);
  }
  .row-line {
    stroke: var(--line);
    stroke-dasharray: 1 5;
    fill: none;
  }
  .row-line.crossed {
    stroke-dasharray: 5 4;
    stroke: var(--rule);
  }
  .drone {
    stroke: var(--hum-ink);
    stroke-width: 1.5;
    fill: none;
  }
  .drone.bass {
    stroke-width: 2.5;
  }
  .foot {
    stroke: var(--rule);
    fill: none;
  }
  .beat {
    stroke: var(--rule-soft);
    fill: none;
  }
  .bar-rule {
    stroke: var(--rule);
    stroke-width: 1.25;
    fill: none;
  }
  .section-rule {
    stroke: var(--ink-2);
    stroke-width: 1.5;
    fill: none;
  }
  .repeat-rule {
    stroke: var(--ink-2);
    stroke-width: 3;
    fill: none;
  }
  .repeat-dot {
    fill: var(--ink-2);
  }
  .ending {
    stroke: var(--ink-2);
    fill: none;
  }
  .chord-row {
    stroke: var(--line);
    stroke-width: 1.25;
    fill: none;
  }
  .chord-ring {
    stroke: var(--line);
    stroke-width: 1.25;
    fill: var(--paper);
  }
  svg .chord {
    font: 600 18px var(--serif);
  }
  svg .tune {
    font: 600 15px var(--serif);
    fill: var(--ink);
  }
  svg .section {
    font: italic 400 15px var(--serif);
  }
  svg .number {
    font: 400 12px var(--sans);
    fill: var(--ink-3);
    text-anchor: end;
  }
  svg .ending-number {
    font-weight: 600;
    fill: var(--ink);
  }
  svg .place {
    font: italic 400 14px var(--serif);
    fill: var(--hum-ink);
  }
  svg .place.rubs {
    font-weight: 600;
  }
  .ink {
    fill: var(--ink);
    stroke: var(--ink);
    stroke-width: 3;
    stroke-linejoin: round;
  }
  .hollow {
    fill: var(--paper);
    stroke: var(--ink);
    stroke-width: 1.75;
    stroke-linejoin: round;
  }
  .outside {
    fill: none;
    stroke: var(--ink-2);
    stroke-width: 1.25;
    stroke-dasharray: 3 2.5;
  }
  .through {
    stroke: var(--ink-2);
    stroke-width: 1.25;
    fill: none;
  }
  .thread {
    stroke: var(--ink);
    stroke-width: 1.15;
    fill: none;
  }
  .grace {
    stroke: var(--ink-3);
    stroke-width: 1;
    fill: none;
    stroke-linejoin: miter;
  }
  .passing {
    fill: var(--ink-3);
  }
  .grace.proposed,
  .dash.proposed {
    stroke: var(--steel);
    stroke-width: 1.5;
    fill: none;
  }
  .rest {
    stroke: var(--ink);
    stroke-width: 2;
    stroke-dasharray: 2 2;
    fill: none;
  }
  .upright {
    stroke: var(--ink);
    stroke-width: 2;
    fill: none;
  }
  svg .word {
    font: italic 400 13px var(--serif);
    fill: var(--ink-2);
  }
  svg .word.ends {
    text-anchor: end;
  }
  .wash {
    fill: var(--steel-wash);
    fill-opacity: 0.6;
  }
  .wash-rule {
    stroke: var(--steel);
    stroke-width: 1.5;
    fill: none;
  }
  .chosen-ink {
    fill: var(--steel);
    stroke: var(--steel);
    stroke-width: 3;
    stroke-linejoin: round;
  }
  .chosen-hatch {
    stroke: var(--steel);
    stroke-width: 1.75;
    stroke-linejoin: round;
  }
  .hatch-ground {
    fill: var(--paper);
  }
  .hatch-line {
    stroke: var(--steel);
    stroke-width: 1.75;
  }
  .handle {
    fill: var(--paper);
    stroke: var(--steel);
    stroke-width: 2;
  }
  .halo {
    fill: none;
    stroke: var(--steel-wash);
    stroke-width: 14;
    stroke-linejoin: round;
  }
  .sounding-ink {
    fill: var(--steel);
    stroke: var(--steel);
    stroke-width: 6;
    stroke-linejoin: round;
  }
  .ghost {
    fill: var(--steel-wash);
    stroke: var(--steel);
    stroke-width: 1.25;
    stroke-dasharray: 3 2;
  }
  .focus {
    fill: none;
    stroke: var(--steel);
    stroke-width: 2;
  }
  .finding circle {
    fill: var(--paper);
    stroke: var(--ink);
    stroke-width: 1.25;
  }
  svg .finding text {
    font: 600 11px var(--sans);
    text-anchor: middle;
  }
  .finding.chosen circle {
    fill: var(--ink);
  }
  svg .finding.chosen text {
    fill: var(--paper);
  }
  .moment.still {
    display: none;
  }
  .moment path {
    stroke: var(--steel);
    stroke-width: 1.5;
  }
  .moment .flag {
    fill: var(--steel);
    stroke: none;
  }
  @media (forced-colors: active) {
    .grace.proposed,
    .dash.proposed {
      stroke: Highlight;
    }
    .hum {
      fill: none;
      stroke: var(--hum);
      stroke-dasharray: 6 4;
    }
    .wash {
      fill-opacity: 0;
    }
    .name.chosen {
      outline: 2px solid Highlight;
      outline-offset: -2px;
    }
  }
`;
