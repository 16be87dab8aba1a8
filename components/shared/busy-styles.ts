import { css } from "lit";

/** Work that takes long: its words, "Stop" beside them, and a line that fills. */
export const busyLine = css`
  .busy {
    display: grid;
    grid-template-columns: minmax(0, 1fr) auto;
    gap: 4px 16px;
    align-items: center;
  }
  progress {
    appearance: none;
    grid-column: 1 / -1;
    inline-size: 100%;
    block-size: 2px;
    border: 0;
    background: var(--rule);
  }
  progress::-webkit-progress-bar {
    background: var(--rule);
  }
  progress::-webkit-progress-value {
    background: var(--steel);
  }
  progress::-moz-progress-bar {
    background: var(--steel);
  }
  @media (forced-colors: active) {
    progress {
      background: Canvas;
      border-block-end: 1px solid CanvasText;
      block-size: 4px;
    }
    progress::-webkit-progress-value {
      background: Highlight;
    }
    progress::-moz-progress-bar {
      background: Highlight;
    }
  }
`;
