import { css, html } from "lit";
import { GRID_STEPS, type GridStep } from "./grid-step.ts";

/** How the choice of steps is laid out. */
export const stepStyles = css`
  .steps {
    display: grid;
    gap: 8px;
    border: 0;
    padding: 0;
    margin: 0;
  }
  .steps label {
    display: flex;
    gap: 8px;
    align-items: center;
    min-block-size: 28px;
  }
  .steps kbd {
    font: 500 13px/20px var(--sans);
    color: var(--ink-2);
  }
  @media (pointer: coarse) {
    .steps label {
      min-block-size: 44px;
    }
  }
`;

/** Every step as a choice; the one in use is ticked. */
export function stepChoice(step: GridStep, choose: (step: GridStep) => void) {
  return html`<fieldset class="steps">
    <legend class="cap">Time is drawn in</legend>
    ${GRID_STEPS.map(
      (entry) =>
        html`<label><input type="radio" name="step" .checked=${entry.step === step} @change=${() => choose(entry.step)} /> ${entry.words} <kbd>${entry.key}</kbd></label>`,
    )}
  </fieldset>`;
}
