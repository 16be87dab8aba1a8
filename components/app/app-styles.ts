import { css } from "lit";

/** The page's layout: header, grid sheet, desk, foot; see the numbers in the design's look (margin 24, label column to 232, foot 120). */
export const appStyles = css`
  :host {
    display: grid;
    grid-template-rows: auto auto minmax(0, 1fr) auto;
    min-block-size: 100dvh;
    color: var(--ink);
  }
  header {
    display: grid;
    grid-template-columns: 184px minmax(0, 1fr) auto;
    column-gap: 0;
    row-gap: 0;
    align-items: baseline;
    padding: 8px 24px 4px;
    min-block-size: 96px;
  }
  .mark {
    font: 400 18px/32px var(--serif);
  }
  .title {
    display: flex;
    align-items: baseline;
    flex-wrap: wrap;
    column-gap: 10px;
    min-inline-size: 0;
  }
  h1 {
    font: 600 27px/32px var(--serif);
    overflow-wrap: anywhere;
  }
  .rooms {
    display: flex;
    gap: 14px;
    align-items: center;
    justify-self: end;
  }
  .rooms .link[aria-pressed="true"] {
    color: var(--ink);
    font-weight: 600;
    text-decoration: none;
  }
  .setup-line {
    grid-column: 2 / 4;
    display: flex;
    justify-content: space-between;
    align-items: center;
    gap: 24px;
    min-inline-size: 0;
  }
  .setup-line setup-sentence {
    min-inline-size: 0;
  }
  transport-bar {
    flex: none;
    max-inline-size: 500px;
  }
  .grid-sheet {
    margin-inline: 16px;
    background: var(--paper);
    border-radius: var(--r-sheet);
    box-shadow: var(--shadow-sheet);
    min-inline-size: 0;
    contain: layout;
  }
  scale-grid {
    display: block;
  }
  .desk {
    display: grid;
    align-content: start;
    gap: 6px;
    margin: 6px 16px 0;
    min-inline-size: 0;
  }
  .blend {
    display: grid;
    gap: 0;
    align-content: start;
  }
  footer {
    display: grid;
    grid-template-columns: minmax(0, 1fr) minmax(0, 560px);
    gap: 32px;
    padding: 8px 24px 12px;
  }
  .telling {
    position: fixed;
    inset-inline: 24px;
    inset-block-end: 16px;
    margin-inline: auto;
    inline-size: fit-content;
    max-inline-size: calc(100vw - 48px);
    padding: 8px 16px;
    background: var(--paper);
    border: 1px solid var(--rule);
    border-radius: var(--r-sheet);
    box-shadow: var(--shadow-lift);
    display: flex;
    gap: 16px;
    align-items: baseline;
    z-index: 3;
  }
  .telling:empty {
    display: none;
  }
  .drop {
    position: fixed;
    inset: 8px;
    border: 2px dashed var(--steel);
    background: color-mix(in srgb, var(--paper) 85%, transparent);
    display: grid;
    place-items: center;
    font: 400 22px/32px var(--serif);
    z-index: 4;
    pointer-events: none;
  }
  /* Said at the top already, but for a phone. */
  .link.of-nothing,
  .views {
    display: none;
  }
  .views .undo,
  .views .fold {
    display: none;
  }
  /* What changes in one of them need not be looked for in the others. Not on a phone, where the bar for playing leaves the header. */
  @media (min-width: 600px) {
    header,
    footer,
    small-print {
      contain: layout style;
    }
  }
  @media (max-width: 1099px) {
    .setup-line {
      flex-wrap: wrap;
      gap: 0 24px;
    }
  }
  @media (max-width: 899px) {
    header {
      grid-template-columns: minmax(0, 1fr) auto;
      padding: 8px 16px;
    }
    .mark {
      display: none;
    }
    .setup-line {
      grid-column: 1 / 3;
      flex-wrap: wrap;
      gap: 8px 24px;
    }
    .grid-sheet,
    .desk {
      margin-inline: 8px;
    }
    footer {
      grid-template-columns: minmax(0, 1fr);
      padding-inline: 16px;
    }
    .views {
      display: flex;
      gap: 4px 20px;
      flex-wrap: wrap;
      padding: 4px 16px;
    }
    .views .link[aria-pressed="true"] {
      color: var(--ink);
      font-weight: 600;
      text-decoration: none;
    }
  }
  @media (max-width: 899px) {
    part-sheet.far {
      display: none;
    }
  }
  /* A phone: one view at a time, what is seldom changed folded away, playing under the thumb. */
  @media (max-width: 599px) {
    :host {
      padding-block-end: 84px;
    }
    header {
      padding: 0 12px;
      min-block-size: 0;
    }
    .rooms .btn {
      min-block-size: 36px;
      position: relative;
    }
    /* The button is drawn smaller than what the finger hits. */
    .rooms .btn::after {
      content: "";
      position: absolute;
      inset: -4px;
    }
    h1 {
      font: 600 18px/24px var(--serif);
    }
    .title {
      align-self: center;
    }
    .rooms {
      gap: 12px;
    }
    .rooms .grace-line,
    .folded song-facts,
    .folded setup-sentence {
      display: none;
    }
    song-facts {
      padding-block: 4px;
    }
    .setup-line {
      display: contents;
    }
    .setup-line setup-sentence {
      grid-column: 1 / 3;
      padding-block-end: 8px;
    }
    transport-bar {
      position: fixed;
      inset: auto 0 0 0;
      max-inline-size: none;
      padding: 8px 12px;
      background: var(--paper-dim);
      border-block-start: 1px solid var(--rule);
      z-index: 2;
    }
    .link.of-nothing,
    .views .undo,
    .views .fold {
      display: inline-block;
    }
    .views .undo {
      margin-inline-start: auto;
    }
    .views {
      padding: 0 12px;
      gap: 0 20px;
    }
    .grid-sheet,
    .desk {
      margin-inline: 0;
      border-radius: 0;
    }
    .shows-grid .desk,
    .shows-part .grid-sheet {
      display: none;
    }
    .telling {
      inset-block-end: 84px;
    }
  }
`;
