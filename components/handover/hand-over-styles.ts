import { css } from "lit";

/** The room as a dialog that fills the window, and as nothing but its pages when printed. */
export const handOverStyles = css`
  dialog {
    inline-size: min(1040px, 100vw - 32px);
    block-size: calc(100dvh - 32px);
    max-block-size: none;
    padding: 0;
    border: 0;
    border-radius: var(--r-sheet);
    background: var(--ground);
    color: var(--ink);
    box-shadow: var(--shadow-lift);
    font: 400 15px/24px var(--serif);
    grid-template-rows: auto minmax(0, 1fr);
  }
  dialog[open] {
    display: grid;
  }
  dialog::backdrop {
    background: color-mix(in srgb, var(--ground) 70%, transparent);
  }
  header {
    padding: 24px 24px 8px;
    display: grid;
    gap: 12px;
  }
  .head {
    display: flex;
    justify-content: space-between;
    align-items: baseline;
    gap: 16px;
  }
  h2 {
    font: 600 22px/32px var(--serif);
  }
  .sentence {
    display: flex;
    flex-wrap: wrap;
    align-items: center;
    gap: 8px;
  }
  .sentence select {
    max-inline-size: 100%;
    field-sizing: content;
  }
  .acts {
    display: flex;
    flex-wrap: wrap;
    gap: 8px 24px;
    align-items: center;
  }
  .acts > .cap {
    min-inline-size: 64px;
  }
  .pages {
    overflow: auto;
    padding: 0 24px 24px;
  }
  .said {
    color: var(--ink-2);
    min-block-size: 24px;
  }
  .said.busy-now {
    min-block-size: 0;
  }
  @media (max-width: 599px) {
    dialog {
      inline-size: 100vw;
      max-inline-size: none;
      block-size: 100dvh;
      margin: 0;
      overflow: auto;
      grid-template-rows: auto auto;
    }
    header {
      padding: 16px;
    }
    .pages {
      overflow: visible;
      padding: 0 8px 16px;
    }
  }
  @media print {
    dialog,
    dialog[open] {
      position: static;
      display: block;
      inline-size: auto;
      block-size: auto;
      margin: 0;
      overflow: visible;
      background: none;
      box-shadow: none;
    }
    header {
      display: none;
    }
    .pages {
      overflow: visible;
      padding: 0;
    }
  }
`;
