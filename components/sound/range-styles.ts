import { css } from "lit";

/** A slider as the house draws it: an ink line up to a steel mark. `--fill` says how far the ink goes; `data-silent` makes the mark a ring. */
export const rangeStyles = css`
  input[type="range"] {
    appearance: none;
    inline-size: 100%;
    min-inline-size: 64px;
    block-size: 28px;
    margin: 0;
    background: none;
    cursor: pointer;
    border-radius: var(--r-4);
    --track: linear-gradient(var(--ink) 0 0) 0 50% / var(--fill, 0%) 3px no-repeat, linear-gradient(var(--rule) 0 0) 0 50% / 100% 1px no-repeat;
  }
  input[type="range"]::-webkit-slider-runnable-track {
    block-size: 20px;
    background: var(--track);
  }
  input[type="range"]::-moz-range-track {
    block-size: 20px;
    background: var(--track);
  }
  input[type="range"]::-webkit-slider-thumb {
    appearance: none;
    inline-size: 4px;
    block-size: 20px;
    border: 0;
    border-radius: 1px;
    background: var(--steel);
  }
  input[type="range"]::-moz-range-thumb {
    inline-size: 4px;
    block-size: 20px;
    border: 0;
    border-radius: 1px;
    background: var(--steel);
  }
  input[type="range"]:hover::-webkit-slider-thumb {
    background: var(--steel-deep);
  }
  input[data-silent]::-webkit-slider-thumb {
    inline-size: 12px;
    block-size: 12px;
    margin-block-start: 4px;
    border: 1.5px solid var(--ink-3);
    border-radius: var(--r-round);
    background: var(--paper);
  }
  input[data-silent]::-moz-range-thumb {
    inline-size: 9px;
    block-size: 9px;
    border: 1.5px solid var(--ink-3);
    border-radius: var(--r-round);
    background: var(--paper);
  }
  @media (max-width: 599px), (pointer: coarse) {
    input[type="range"] {
      block-size: 44px;
    }
    input[type="range"]:not([data-silent])::-webkit-slider-thumb {
      inline-size: 8px;
    }
    input[type="range"]:not([data-silent])::-moz-range-thumb {
      inline-size: 8px;
    }
  }
  @media (forced-colors: active) {
    input[type="range"] {
      forced-color-adjust: none;
    }
  }
`;
