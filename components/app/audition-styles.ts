import { css } from "lit";

/** The page on which versions are compared: the ribbon, a column for each version, the sliders at the foot. */
export const auditionStyles = css`
  dialog {
    inline-size: 100vw;
    block-size: 100dvh;
    max-inline-size: none;
    max-block-size: none;
    box-sizing: border-box;
    margin: 0;
    padding: 16px 24px 24px;
    border: 0;
    background: var(--ground);
    color: var(--ink);
    font: 400 15px/24px var(--serif);
    overflow: auto;
  }
  dialog[open] {
    display: grid;
    align-content: start;
    gap: 16px;
  }
  header,
  .foot {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 24px;
    align-items: baseline;
  }
  h2 {
    font: 600 27px/32px var(--serif);
  }
  .where {
    display: flex;
    flex-wrap: wrap;
    gap: 0 16px;
    align-items: baseline;
    color: var(--ink-2);
    margin-inline-end: auto;
  }
  .asked {
    display: flex;
    justify-content: space-between;
    align-items: center;
    gap: 8px 24px;
  }
  .choices {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 20px;
  }
  .choices button[aria-pressed="true"] {
    color: var(--ink);
    text-decoration-thickness: 2px;
    font-weight: 600;
  }
  .columns {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(300px, 1fr));
    gap: 14px;
    align-items: start;
  }
  .version {
    display: grid;
    gap: 8px;
    padding: 18px;
    background: var(--paper);
    border-radius: var(--r-sheet);
    box-shadow: var(--shadow-sheet);
    border-block-start: 4px solid transparent;
  }
  .version.sounding {
    border-block-start-color: var(--steel);
  }
  .version h3 {
    display: flex;
    gap: 8px;
    align-items: baseline;
    font: 600 20px/28px var(--serif);
  }
  .ring {
    font: 600 13px/20px var(--sans);
    inline-size: 22px;
    block-size: 22px;
    flex: none;
    padding: 0;
    border: 1px solid var(--ink);
    border-radius: var(--r-4);
    background: none;
    color: var(--ink);
    cursor: pointer;
    position: relative;
  }
  .ring::after {
    content: "";
    position: absolute;
    inset: -11px;
  }
  .state {
    margin-inline-start: auto;
    font: 400 13px/20px var(--sans);
    color: var(--ink-2);
  }
  .sounding .state {
    color: var(--steel);
    font-weight: 600;
  }
  .played {
    color: var(--ink-2);
    min-block-size: 48px;
  }
  .snippet {
    inline-size: 100%;
    block-size: auto;
    max-block-size: 120px;
  }
  .cap {
    font: 400 13px/20px var(--sans);
    color: var(--ink-2);
  }
  .curves {
    display: grid;
    gap: 8px;
  }
  .curve {
    inline-size: 100%;
    block-size: auto;
    overflow: visible;
  }
  .curve .area {
    fill: var(--hum);
    opacity: 0.35;
  }
  .curve .line {
    fill: none;
    stroke: var(--ink);
    stroke-width: 2;
  }
  .curve .foot,
  .curve .band-at {
    fill: none;
    stroke: var(--ink-3);
    stroke-width: 1;
  }
  .curve .band-at {
    stroke-dasharray: 1.5 4;
  }
  .curve .drone-at {
    fill: none;
    stroke: var(--hum);
    stroke-width: 7;
  }
  .curve .here {
    fill: var(--steel);
    stroke: var(--paper);
    stroke-width: 1;
  }
  .curve .here.hollow {
    fill: var(--paper);
    stroke: var(--steel);
    stroke-width: 3;
  }
  .curve text {
    font: 400 12px/1 var(--sans);
    fill: var(--ink-2);
    font-variant-numeric: tabular-nums lining-nums;
  }
  .curve .value {
    font-weight: 600;
    font-size: 15px;
    fill: var(--ink);
    paint-order: stroke;
    stroke: var(--paper);
    stroke-width: 4px;
  }
  dl {
    display: grid;
    grid-template-columns: max-content 1fr;
    margin: 0;
  }
  dt,
  dd {
    margin: 0;
    padding-block: 4px;
    border-block-start: 1px solid var(--rule-soft);
  }
  dt {
    color: var(--ink-2);
    padding-inline-end: 16px;
  }
  dd {
    text-align: end;
    font: 400 13px/24px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
  }
  .verdict {
    font-style: italic;
    min-block-size: 48px;
  }
  .sliders {
    display: grid;
    grid-template-columns: repeat(auto-fit, minmax(180px, 1fr));
    gap: 8px 32px;
    flex: 1 1 480px;
  }
  .switch {
    display: none;
  }
  @media (max-width: 599px) {
    dialog {
      padding: 12px 16px 24px;
    }
    .columns {
      grid-template-columns: minmax(0, 1fr);
    }
    /* One column at a time: the versions under the thumb are the way from one to another. */
    .version:not(.chosen) {
      display: none;
    }
    .switch {
      display: grid;
      grid-auto-flow: column;
      grid-auto-columns: minmax(0, 1fr);
      gap: 8px;
      position: sticky;
      inset-block-end: 0;
      order: 1;
      padding-block: 8px;
      background: var(--ground);
    }
    .switch button {
      padding-inline: 6px;
      font-size: 13px;
      line-height: 16px;
      white-space: normal;
    }
    .switch button[aria-pressed="true"] {
      background: var(--steel);
      color: var(--on-steel);
    }
    .choices button,
    header button {
      min-block-size: 44px;
    }
  }
  @media (forced-colors: active) {
    .curve .line {
      stroke: CanvasText;
    }
    .curve .drone-at {
      stroke: GrayText;
      stroke-width: 1;
      stroke-dasharray: 6 4;
    }
    .curve .here {
      fill: Highlight;
    }
    .version.sounding {
      border-block-start-color: Highlight;
    }
  }
`;
