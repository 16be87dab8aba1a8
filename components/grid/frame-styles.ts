import { css } from "lit";

/** The grid's frame: labels, time, margin, and what floats over them. */
export const frameStyles = css`
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
  .time {
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
    display: grid;
    align-items: start;
    padding: 8px 0 0;
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
    inset-inline-start: 10%;
    max-inline-size: 75%;
    padding: 8px 16px 12px;
    background: var(--paper);
    pointer-events: none;
  }
  .teaching .link {
    pointer-events: auto;
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
    inset-inline: 4px 0;
    inset-block-start: 33%;
    max-inline-size: none;
    padding: 4px 4px 0;
  }
  .frame.compact .teaching h2 {
    font: 600 18px/24px var(--serif);
  }
  .frame.compact .teaching p {
    line-height: 20px;
  }
  .frame.compact .teaching .offers {
    gap: 0 24px;
    padding: 0;
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
    /* 24 px between the middles of two words that can be pressed (WCAG 2.2, 2.5.8). */
    font: 400 13px/24px var(--sans);
  }
  .margin .tools .link {
    font: 500 13px/24px var(--sans);
  }
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
`;
