import { describe, expect, it } from "vitest";
import type { Proposal } from "../../components/session/proposal.ts";
import { Session } from "../../components/session/session.ts";
import { applyEdits } from "../../src/editing/apply-edit.ts";
import type { Edit } from "../../src/score/edit.ts";
import { newScore } from "../../src/score/new-score.ts";

const TITLE: Edit = { kind: "title", title: "Paper Lantern Weather" };
const OTHER: Edit = { kind: "title", title: "The Long Light" };

function proposing(session: Session, edits: readonly Edit[] = [TITLE]): Proposal {
  const outcome = applyEdits(session.score, edits);
  if (!outcome.ok) throw new Error(outcome.reason);
  return { score: outcome.value, label: "name it", edits };
}

/** A session in which a title is proposed, and what its listeners hear from then on. */
function proposed() {
  const session = new Session(newScore());
  session.apply([OTHER], "the title");
  const kept = session.score;
  session.propose(proposing(session));
  const told: string[] = [];
  const saved: unknown[] = [];
  session.subscribe((change) => told.push(change));
  session.subscribeToScore((_score, change) => saved.push(change));
  return { session, kept, told, saved };
}

describe("what is proposed", () => {
  it("is shown, while the kept score and what is saved stay as they were", () => {
    const { session, kept, saved } = proposed();
    expect(session.shown.title).toBe("Paper Lantern Weather");
    expect(session.score).toBe(kept);
    expect(saved).toEqual([]);
  });

  it("gives way to the next proposal, of which those who show it hear", () => {
    const { session, told } = proposed();
    const next = proposing(session, [{ kind: "title", title: "Wick" }]);
    session.propose(next);
    expect(session.shown).toBe(next.score);
    expect(told).toEqual(["proposal"]);
  });

  it("becomes one undo step when it is kept, saved with the edits that led to it", () => {
    const { session, kept, told, saved } = proposed();
    expect(session.keep()).toBe(true);
    expect(session.proposal).toBeNull();
    expect(session.score.title).toBe("Paper Lantern Weather");
    expect(session.undoLabel).toBe("name it");
    expect(told).toEqual(["score"]);
    expect(saved).toEqual([{ kind: "edited", edits: [TITLE] }]);
    session.undo();
    expect(session.score).toBe(kept);
  });

  it("is saved whole where no edits lead to it", () => {
    const { session, saved } = proposed();
    session.propose({ ...proposing(session), edits: null });
    session.keep();
    expect(saved).toEqual([{ kind: "replaced" }]);
  });

  it("goes without a trace when it is left", () => {
    const { session, kept, told, saved } = proposed();
    expect(session.leave()).toBe(true);
    expect(session.shown).toBe(kept);
    expect(session.undoLabel).toBe("the title");
    expect(told).toEqual(["proposal"]);
    expect(saved).toEqual([]);
    expect(session.leave()).toBe(false);
    expect(session.keep()).toBe(false);
  });

  it("is what undo takes back first, and leaves nothing to redo", () => {
    const { session, kept } = proposed();
    expect(session.undoLabel).toBe("name it");
    session.undo();
    expect(session.shown).toBe(kept);
    expect(session.undoLabel).toBe("the title");
    expect(session.redoLabel).toBeNull();
  });

  it("leaves the steps that were taken back to be done again once it is left", () => {
    const session = new Session(newScore());
    session.apply([OTHER], "the title");
    session.undo();
    session.propose(proposing(session));
    expect(session.redoLabel).toBeNull();
    expect(session.redo()).toBe(false);
    session.leave();
    expect(session.redo()).toBe(true);
    expect(session.score.title).toBe("The Long Light");
  });

  it("refuses other edits in words until it is kept or left", () => {
    const { session, kept, saved } = proposed();
    expect(session.apply([OTHER], "the title")).toEqual({
      ok: false,
      reason: "What you see is only proposed. Keep it or leave it, then go on writing.",
    });
    expect(session.score).toBe(kept);
    expect(session.proposal).not.toBeNull();
    expect(saved).toEqual([]);
    session.leave();
    expect(session.apply([OTHER], "the title").ok).toBe(true);
  });

  it("differs from what is kept", () => {
    const session = new Session(newScore());
    expect(() => session.propose({ score: session.score, label: "nothing", edits: [] })).toThrow(RangeError);
  });
});
