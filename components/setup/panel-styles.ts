import { css } from "lit";

/** A settings panel: fields under one another, the act at the end. */
export const panel = css`
  :host {
    display: block;
    min-inline-size: 260px;
  }
  form {
    display: grid;
    gap: 16px;
  }
  .row {
    display: flex;
    gap: 8px;
    align-items: end;
    flex-wrap: wrap;
  }
  .row > .field {
    flex: 1;
  }
  .acts {
    display: flex;
    gap: 16px;
    align-items: center;
  }
  .say {
    color: var(--ink-2);
    font: 400 14px/20px var(--serif);
    max-inline-size: 40ch;
  }
`;

/** Closes the panel that a control inside a `<filled-blank>` stands in; the blank's own light dismissal does the rest. */
export function closePanel(inside: Element): void {
  const blank = inside.closest("filled-blank") ?? (inside.getRootNode() as ShadowRoot).host?.closest("filled-blank");
  blank?.hide();
}
