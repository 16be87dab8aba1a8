import { css } from "lit";

/** The grid's frame: labels, time, margin, and what floats over them. */
export const gridFrameStyles = css`
  :host {
    display: block;
    min-inline-size: 0;
  }
  .frame {
    position: relative;
    display: grid;
    grid-template-columns: var(--labels) minmax(0, 1fr) var(--margin);
    block-size: var(--height);
    contain: strict;
    inline-size: 100%;
    user-select: none;
    -webkit-user-select: none;
  }
  .labels,
  .margin {
    position: relative;
    min-inline-size: 0;
  }
  .field {
    position: relative;
    min-inline-size: 0;
    overflow: hidden;
    contain: strict;
  }
  .scroller {
    position: absolute;
    inset: 0;
    overflow-x: auto;
    overflow-y: hidden;
    scrollbar-width: none;
    overscroll-behavior-x: contain;
  }
  .content {
    position: relative;
    block-size: 100%;
  }
  svg {
    position: absolute;
    inset: 0;
    inline-size: 100%;
    block-size: 100%;
    pointer-events: none;
  }
  .surface {
    position: absolute;
    inset-inline: 0;
    top: var(--chords);
    block-size: var(--rows);
    touch-action: none;
    cursor: crosshair;
  }
  .surface[data-over="note"] {
    cursor: grab;
  }
  .surface[data-over="start"],
  .surface[data-over="end"] {
    cursor: ew-resize;
  }
  .surface.holding {
    cursor: grabbing;
  }
  .head-surface {
    position: absolute;
    inset-inline: 0;
    top: 0;
    block-size: var(--chords);
    touch-action: pan-x;
  }
  [role="grid"] {
    position: absolute;
    inset: 0;
    pointer-events: none;
  }
  [role="gridcell"] {
    position: absolute;
    top: var(--chords);
    block-size: var(--rows);
    outline: none;
  }
  .tag {
    position: absolute;
    block-size: 26px;
    padding: 2px 8px;
    font: 400 13px/20px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
    background: var(--paper);
    border: 1px solid var(--rule);
    border-radius: var(--r-4);
    pointer-events: none;
    white-space: nowrap;
  }
  .tag b {
    font-weight: 600;
  }
  .more {
    position: absolute;
    top: var(--chords);
    block-size: var(--rows);
    inline-size: 44px;
    border: 0;
    border-inline-start: 1px dashed var(--line);
    background: none;
    color: var(--steel);
    font: 500 13px/16px var(--sans);
    cursor: pointer;
  }
  .teaching {
    position: absolute;
    inset-block-start: 40%;
    inset-inline: 24%;
    max-inline-size: 720px;
    padding: 8px 16px 12px;
    background: var(--paper);
  }
  .teaching h2 {
    font: 600 22px/32px var(--serif);
  }
  .teaching p {
    color: var(--ink-2);
  }
  .teaching .offers {
    display: flex;
    gap: 4px 40px;
    flex-wrap: wrap;
    padding-block-start: 4px;
  }
  .frame.compact .teaching {
    inset-inline: 8px;
    inset-block-start: 30%;
  }
  .frame.compact .teaching h2 {
    font: 600 18px/24px var(--serif);
  }
  .margin {
    font: 400 13px/16px var(--sans);
    color: var(--hum-ink);
  }
  .margin > span,
  .margin .tools {
    position: absolute;
    inset-inline-start: 20px;
    white-space: nowrap;
  }
  .margin .partial-head {
    top: 10px;
    font-size: 12px;
    inset-inline-start: 12px;
  }
  .margin .partial {
    transform: translateY(-50%);
    font-variant-numeric: lining-nums;
  }
  .margin .their {
    font-size: 12px;
    inset-inline-start: 12px;
  }
  .margin .tools {
    inset-inline-start: 12px;
    color: var(--ink-3);
    display: grid;
    gap: 2px;
    font: 400 13px/17px var(--sans);
  }
  .margin .tools .link {
    font: 500 13px/17px var(--sans);
  }
  .steps {
    display: grid;
    gap: 8px;
    border: 0;
    padding: 0;
    margin: 0;
  }
  .steps label {
    display: flex;
    gap: 8px;
    align-items: center;
    min-block-size: 28px;
  }
  .steps kbd,
  .keys kbd {
    font: 500 13px/20px var(--sans);
    color: var(--ink-2);
  }
  [popover] {
    inset: auto;
    margin: 0;
    padding: 16px;
    border: 1px solid var(--rule);
    border-radius: var(--r-sheet);
    background: var(--paper);
    color: var(--ink);
    box-shadow: var(--shadow-lift);
    max-inline-size: calc(100vw - 32px);
    max-block-size: calc(100dvh - 32px);
    overflow: auto;
  }
  .keys {
    inset: 0;
    margin: auto;
    inline-size: min(900px, calc(100vw - 32px));
    block-size: fit-content;
  }
  .keys h2 {
    font: 600 22px/32px var(--serif);
  }
  .keys h3 {
    font: 600 15px/24px var(--serif);
    padding-block: 8px 2px;
  }
  .keys .columns {
    columns: 2 320px;
    column-gap: 32px;
  }
  .keys section {
    break-inside: avoid;
  }
  .keys dl {
    display: grid;
    grid-template-columns: 140px minmax(0, 1fr);
    gap: 2px 12px;
    margin: 0;
  }
  .keys dd {
    margin: 0;
  }
  .graces {
    padding: 8px;
  }
  .graces p {
    padding: 0 4px 4px;
  }
  .graces .row {
    display: flex;
    gap: 4px;
  }
  .graces button {
    min-inline-size: 44px;
    min-block-size: 44px;
    border: 1px solid var(--rule);
    border-radius: var(--r-4);
    background: var(--paper);
    color: var(--ink);
    font: 500 15px/20px var(--sans);
    cursor: pointer;
  }
  .graces button[aria-pressed="true"] {
    border-color: var(--steel);
    color: var(--steel);
  }
  .graces button:disabled {
    color: var(--ink-3);
    cursor: default;
    border-style: dashed;
  }
`;

/** The column of names. */
export const labelStyles = css`
  .heads {
    position: absolute;
    inset-inline: 0;
    top: 0;
    font: 400 12px/16px var(--sans);
    color: var(--ink-3);
  }
  .heads span {
    position: absolute;
    top: 10px;
    inset-inline-start: 8px;
    white-space: nowrap;
  }
  .heads .band-head {
    inset-inline-start: 90px;
  }
  .heads .section-name {
    inset-inline-start: 14px;
    inset-inline-end: 4px;
    overflow: hidden;
    text-overflow: ellipsis;
    font: italic 400 17px/24px var(--serif);
    color: var(--ink);
  }
  .name {
    position: absolute;
    inset-inline: 0;
    block-size: 22px;
    transform: translateY(-50%);
    border: 0;
    padding: 0;
    background: none;
    color: var(--ink);
    text-align: start;
    cursor: pointer;
    touch-action: manipulation;
  }
  .names:hover .name:hover,
  .name.hovered {
    background: var(--paper-dim);
  }
  .name.chosen {
    background: var(--steel-wash);
  }
  .name:focus-visible {
    outline-offset: -2px;
  }
  .name span {
    position: absolute;
    top: 1px;
    white-space: nowrap;
  }
  .written {
    inset-inline-start: 8px;
    font: 600 15px/20px var(--serif);
  }
  .crossed .written {
    font: italic 400 15px/20px var(--serif);
  }
  .name.sounding .written {
    font-weight: 700;
    color: var(--steel);
  }
  .concert {
    inset-inline-start: 92px;
    font: 400 13.5px/20px var(--sans);
    color: var(--ink-2);
  }
  .cents {
    inset-inline-end: calc(100% - 160px);
    font: 400 13px/20px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
    color: var(--ink-3);
  }
  .cents.off {
    color: var(--ink);
  }
  .drones {
    position: absolute;
    inset-inline-start: 8px;
    block-size: var(--drones);
    align-content: center;
    display: grid;
    grid-template-columns: 84px 22px 46px;
    row-gap: 0;
    column-gap: 0;
    align-items: baseline;
    padding-block: 2px;
    pointer-events: none;
  }
  .drones .drone-name {
    font: 400 15px/19px var(--serif);
  }
  .drone-pitch,
  .drone-hertz {
    font: 400 13px/19px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
    color: var(--ink-2);
    white-space: nowrap;
  }
  .drone-hertz {
    font-size: 12.5px;
  }
  .drones.compact {
    inset-inline-start: 14px;
    font: 400 15px/42px var(--serif);
    display: block;
    padding: 0;
  }
  .compact .heads .section-name {
    top: 8px;
  }
  .compact .name {
    block-size: 24px;
  }
  .compact .written {
    inset-inline-start: 14px;
  }
  .compact .cents {
    inset-inline-end: 14px;
  }
  .scale {
    stroke: var(--line);
    fill: none;
  }
  .semitone {
    stroke: var(--line);
    fill: none;
  }
  .slope {
    stroke: var(--ink);
    stroke-width: 1.25;
    fill: none;
  }
  .slope.broken {
    stroke-dasharray: 3 2.5;
  }
`;

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
    stroke-width: 9;
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
    .hum {
      fill: none;
      stroke: var(--hum);
      stroke-dasharray: 6 4;
    }
    .name.chosen {
      outline: 2px solid Highlight;
      outline-offset: -2px;
    }
  }
`;
