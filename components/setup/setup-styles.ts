import { css } from "lit";

/** What the panels of the pipe setup have in common, beside `panel`: choices side by side, ticks, advice with its source, refusals. */
export const setupPanel = css`
  :host {
    display: grid;
    gap: 16px;
  }
  fieldset {
    border: 0;
    margin: 0;
    padding: 0;
    min-inline-size: 0;
  }
  legend {
    padding: 0;
    margin-block-end: 4px;
  }
  .choices {
    display: flex;
    flex-wrap: wrap;
    gap: 4px 16px;
  }
  .tick {
    display: flex;
    gap: 8px;
    align-items: center;
    min-block-size: 28px;
  }
  .number {
    inline-size: 12ch;
  }
  .row > .field {
    flex: none;
  }
  .fact {
    font: 400 15px/22px var(--serif);
    max-inline-size: 44ch;
  }
  .offers {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 16px;
  }
  .source {
    font: 400 12px/16px var(--sans);
    color: var(--ink-3);
    max-inline-size: 52ch;
  }
  .refusal {
    font: 600 14px/20px var(--serif);
    max-inline-size: 44ch;
  }
  .refusal:empty {
    display: none;
  }
  @media (max-width: 599px), (pointer: coarse) {
    .tick {
      min-block-size: 44px;
    }
  }
`;
