import { css } from "lit";

/** How the transport looks: one round steel button, and words. */
export const transportStyles = css`
  :host {
    display: block;
    color: var(--ink);
    font: 400 14px/20px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
  }
  .bar {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 4px 20px;
  }
  .play {
    inline-size: 44px;
    block-size: 44px;
    flex: none;
    padding: 0;
    border: 0;
    border-radius: var(--r-round);
    background: none;
    cursor: pointer;
  }
  .play svg {
    display: block;
    inline-size: 44px;
    block-size: 44px;
    fill: var(--on-steel);
    background: radial-gradient(circle, var(--steel) 0 17.5px, transparent 18px);
    border-radius: var(--r-round);
  }
  .play:hover svg {
    background: radial-gradient(circle, var(--steel-deep) 0 17.5px, transparent 18px);
  }
  .reading {
    color: var(--ink-2);
    white-space: nowrap;
  }
  .reading b {
    display: inline-block;
    color: var(--ink);
    font-weight: 600;
    font-size: 16px;
  }
  .setting {
    color: var(--ink-2);
    white-space: nowrap;
  }
  .manner {
    display: grid;
    gap: 8px;
    border: 0;
    border-block-start: 1px solid var(--rule-soft);
    margin: 0;
    padding: 8px 0 0;
  }
  .told:empty {
    display: none;
  }
  .told {
    color: var(--ink-2);
  }
  /* Whatever is there within 300 ms needs no words. */
  .wait {
    visibility: hidden;
    animation: said 0s 300ms forwards;
  }
  @keyframes said {
    to {
      visibility: visible;
    }
  }
  .panel {
    display: grid;
    gap: 16px;
    min-inline-size: 240px;
  }
  .panel .acts {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
    align-items: end;
  }
  .panel .check {
    display: flex;
    gap: 8px;
    align-items: center;
    min-block-size: 28px;
  }
  .panel input[type="number"] {
    inline-size: 84px;
  }
  @media (max-width: 599px), (pointer: coarse) {
    .bar {
      gap: 0 12px;
    }
    .panel .check {
      min-block-size: 44px;
    }
  }
  @media (forced-colors: active) {
    .play svg {
      forced-color-adjust: none;
    }
  }
`;
