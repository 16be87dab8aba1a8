import { css } from "lit";

/** How the choice of gracenotes looks: a small sheet beside the note; on a phone a sheet at the foot. */
export const gracenoteMenuStyles = css`
  [popover] {
    inset: auto;
    margin: 0;
    padding: 0;
    inline-size: min(432px, calc(100vw - 16px));
    max-block-size: min(560px, calc(100dvh - 16px));
    overflow: hidden;
    border: 1px solid var(--rule);
    border-radius: var(--r-sheet);
    background: var(--paper);
    color: var(--ink);
    box-shadow: var(--shadow-lift);
  }
  [popover]:popover-open {
    display: flex;
    flex-direction: column;
  }
  .head {
    display: flex;
    justify-content: space-between;
    align-items: baseline;
    gap: 16px;
    padding: 12px 16px 8px;
    font: 400 15px/24px var(--serif);
  }
  .head b {
    font-weight: 600;
  }
  .list {
    flex: 1 1 auto;
    min-block-size: 0;
    overflow: auto;
    border-block: 1px solid var(--rule-soft);
    overscroll-behavior: contain;
  }
  .none {
    padding: 4px 16px 12px;
    font: 400 15px/24px var(--serif);
  }
  [role="option"] {
    display: grid;
    grid-template-columns: 16px 96px 1fr auto;
    align-items: center;
    column-gap: 16px;
    min-block-size: 48px;
    padding: 4px 16px;
    cursor: pointer;
  }
  [role="option"]:hover,
  [role="option"].here {
    background: var(--paper-dim);
  }
  [role="option"]:focus-visible {
    outline-offset: -2px;
  }
  [role="option"][aria-selected="true"] .name {
    color: var(--steel);
  }
  .figure,
  .mark,
  .letters {
    font: 400 13px/16px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
    color: var(--ink-3);
  }
  .mark {
    text-align: end;
  }
  .mark .now {
    color: var(--steel);
    font-weight: 600;
  }
  .words {
    min-inline-size: 0;
  }
  .name {
    display: block;
    font: 600 15px/20px var(--serif);
  }
  .letters {
    display: block;
    color: var(--ink-2);
  }
  .picture {
    display: block;
    overflow: visible;
  }
  .picture .beat {
    stroke: var(--rule);
    fill: none;
  }
  .picture .moving {
    stroke: var(--ink-2);
    fill: none;
  }
  .picture .held {
    fill: var(--ink);
  }
  .here .picture .moving {
    stroke: var(--steel);
    stroke-width: 1.5;
  }
  .foot {
    display: grid;
    grid-template-columns: 1fr auto;
    align-items: end;
    gap: 8px 16px;
    padding: 12px 16px;
  }
  .foot .answer {
    grid-column: 1 / -1;
    min-block-size: 40px;
    display: grid;
    grid-template-columns: auto 1fr;
    align-items: center;
    gap: 16px;
    font: 400 14px/20px var(--serif);
    color: var(--ink-2);
  }
  .foot .answer > :only-child {
    grid-column: 1 / -1;
  }
  .foot input {
    inline-size: 100%;
  }
  .acts {
    grid-column: 1 / -1;
    display: flex;
    flex-wrap: wrap;
    justify-content: space-between;
    align-items: center;
    gap: 8px 16px;
  }
  @media (pointer: coarse) {
    .figure {
      visibility: hidden;
    }
  }
  @media (max-width: 599px), (max-height: 479px) {
    [popover] {
      inset: auto 0 0 0;
      inline-size: 100%;
      max-block-size: 72dvh;
      border-inline: 0;
      border-block-end: 0;
      padding-block-end: env(safe-area-inset-bottom);
    }
    [role="option"] {
      grid-template-columns: 96px 1fr auto;
      min-block-size: 52px;
    }
    .figure {
      display: none;
    }
  }
  /* A phone on its side: what can be spelled stands beside the list instead of under it. */
  @media (max-height: 479px) and (min-width: 600px) {
    [popover] {
      max-block-size: 92dvh;
    }
    [popover]:popover-open {
      display: grid;
      grid-template: auto minmax(0, 1fr) / 3fr 2fr;
    }
    .head {
      grid-column: 1 / -1;
    }
    .foot {
      align-content: start;
      border-block-start: 1px solid var(--rule-soft);
      border-inline-start: 1px solid var(--rule-soft);
    }
  }
  @media (forced-colors: active) {
    [role="option"].here {
      outline: 2px solid Highlight;
      outline-offset: -2px;
    }
  }
`;
