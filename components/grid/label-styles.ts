import { css } from "lit";

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
  .scales {
    z-index: 1;
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
  /* Three names have room in the same strip when each takes less. */
  .drones.many .drone-name,
  .drones.many .drone-pitch,
  .drones.many .drone-hertz {
    font-size: 12px;
    line-height: 13px;
  }
  .drones.compact {
    inset-inline-start: 14px;
    font: 400 15px/48px var(--serif);
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
