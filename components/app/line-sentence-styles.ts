import { css } from "lit";

/** The sentence stands where the reading line does, in the same columns. */
export const lineSentenceStyles = css`
  :host {
    display: block;
    border-block-start: 1px solid var(--rule-soft);
  }
  section {
    display: grid;
    grid-template-columns: 184px minmax(0, 1fr) auto;
    column-gap: 0;
    align-items: center;
    padding: 4px 24px 4px 8px;
  }
  .sentence {
    font: 400 17px/26px var(--serif);
    color: var(--ink);
  }
  .says {
    font: 400 14px/20px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
    color: var(--ink-2);
    min-block-size: 20px;
  }
  .refusal {
    color: var(--ink);
    font-weight: 600;
  }
  .acts {
    display: flex;
    gap: 16px;
    align-items: center;
    margin-inline-start: 24px;
  }
  .steps {
    display: flex;
    gap: 12px;
    align-items: center;
  }
  .where {
    font: 400 13px/20px var(--sans);
    font-variant-numeric: tabular-nums lining-nums;
    color: var(--ink-2);
    min-inline-size: 64px;
    text-align: center;
  }
  fieldset {
    border: 0;
    padding: 0;
    margin: 0;
    display: grid;
    gap: 4px;
  }
  legend {
    padding: 0 0 4px;
  }
  label {
    display: flex;
    gap: 8px;
    align-items: center;
    min-block-size: 28px;
  }
  .note {
    padding-block-start: 8px;
    max-inline-size: 40ch;
    font: 400 14px/20px var(--serif);
    color: var(--ink-2);
  }
  @media (pointer: coarse) {
    label {
      min-block-size: 44px;
    }
  }
  @media (max-width: 1099px) {
    section {
      grid-template-columns: minmax(0, 1fr) auto;
      padding-inline: 16px;
    }
    section > .cap {
      display: none;
    }
  }
  @media (max-width: 799px) {
    section {
      grid-template-columns: minmax(0, 1fr);
      row-gap: 8px;
      padding-block: 12px 8px;
    }
    .acts {
      margin-inline-start: 0;
      flex-wrap: wrap;
    }
    .steps {
      margin-inline-end: auto;
    }
  }
  @media (max-width: 599px) {
    :host {
      background: var(--paper-dim);
    }
    label {
      min-block-size: 44px;
    }
  }
`;
