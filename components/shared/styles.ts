import { css } from "lit";

/** The one focus ring: steel, 2 px, 2 px away. In every element's styles. */
export const focusRing = css`
  :focus-visible {
    outline: 2px solid var(--steel);
    outline-offset: 2px;
  }
`;

/** `.heard`: words for the screen reader that the eye does not need. */
export const visuallyHidden = css`
  .heard {
    position: absolute;
    inline-size: 1px;
    block-size: 1px;
    overflow: hidden;
    clip-path: inset(50%);
    white-space: nowrap;
  }
`;

/** `.btn`, `.link`, `.cap`, `.sheet` and form fields, as look.md has them. */
export const controls = css`
  * {
    box-sizing: border-box;
  }
  h1,
  h2,
  h3,
  p,
  ul,
  ol {
    margin: 0;
    padding: 0;
    font-weight: 400;
  }
  .sans {
    font-family: var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
  }
  .sheet {
    background: var(--paper);
    border-radius: var(--r-sheet);
    box-shadow: var(--shadow-sheet);
  }
  .btn {
    font: 600 14px/20px var(--sans);
    color: var(--steel);
    background: none;
    border: 1px solid var(--steel);
    border-radius: var(--r-4);
    padding: 5px 12px;
    cursor: pointer;
  }
  .btn.main {
    background: var(--steel);
    color: var(--on-steel);
  }
  .btn:hover {
    border-color: var(--steel-deep);
  }
  .btn:disabled,
  .link:disabled {
    color: var(--ink-3);
    border-color: var(--rule);
    background: none;
    cursor: default;
    text-decoration: none;
  }
  .link {
    font: 500 14px/20px var(--sans);
    color: var(--steel);
    background: none;
    border: 0;
    padding: 0;
    text-decoration: underline 1px;
    text-underline-offset: 3px;
    cursor: pointer;
    text-align: start;
  }
  .link:hover {
    color: var(--steel-deep);
    text-decoration-thickness: 2px;
  }
  .cap {
    font: 400 13px/16px var(--sans);
    color: var(--ink-3);
  }
  .field {
    display: grid;
    gap: 4px;
    font: 400 13px/16px var(--sans);
    color: var(--ink-2);
  }
  input[type="text"],
  input[type="number"],
  select,
  textarea {
    font: 400 15px/20px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
    color: var(--ink);
    background: var(--paper);
    border: 1px solid var(--ink-3);
    border-radius: var(--r-4);
    padding: 5px 8px;
    min-inline-size: 0;
  }
  input[type="checkbox"],
  input[type="radio"] {
    accent-color: var(--steel);
    inline-size: 18px;
    block-size: 18px;
    margin: 0;
  }
  @media (max-width: 599px), (pointer: coarse) {
    .btn,
    .link,
    input[type="text"],
    input[type="number"],
    select {
      min-block-size: 44px;
    }
    .link {
      padding-block: 12px;
    }
  }
`;
