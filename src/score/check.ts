import { lowASentence } from "../pipes/pitch-sentences.ts";
import { bandAToMatch, lowACentsOff } from "../pipes/tempering.ts";
import { isBandA } from "../pitch/reference-pitch.ts";
import { shownNumber } from "../units/shown.ts";
import type { Ticks } from "../units/ticks.ts";
import { checkConcertLine } from "./check-concert-line.ts";
import { checkPipeLine } from "./check-pipe-line.ts";
import { repeatFaults } from "./check-repeats.ts";
import type { Finding } from "./finding.ts";
import { concertLines, pipeLines } from "./line-of.ts";
import type { PipeLine, Score } from "./score.ts";

/** From here musicians hear that two pitches differ, cents. *Source:* Arndt et al., Exp. Brain Res. 238 (2020) 247: about 10 cents. */
const HEARD = 10;

/**
 * Everything there is to look at in a sketch, in order of time and then of lines. It never throws, whatever the bars hold, and looks again only at
 * bars that changed or whose surroundings did.
 */
export function check(score: Score): readonly Finding[] {
  const order = new Map(score.lines.map((line, index) => [line.id, index]));
  const found = [
    ...pitchFindings(score),
    ...repeatFindings(score),
    ...score.lines.flatMap((line) => (line.kind === "pipes" ? checkPipeLine(score, line) : checkConcertLine(score, line))),
  ];
  return found.sort(
    ({ address: one }, { address: other }) =>
      one.bar - other.bar || one.at - other.at || (order.get(one.line) ?? 0) - (order.get(other.line) ?? 0),
  );
}

/** Pipes alone are in tune with themselves; only a band can be off. */
function pitchFindings(score: Score): readonly Finding[] {
  if (concertLines(score).length === 0) return [];
  return pipeLines(score)
    .filter((line) => Math.abs(lowACentsOff(line.setup, score.bandA)) > HEARD)
    .map((line) => pitchFinding(score, line));
}

function pitchFinding(score: Score, line: PipeLine): Finding {
  const fitting = bandAToMatch(line.setup);
  const edits = [{ kind: "band-a", bandA: fitting }] as const;
  return {
    kind: "pitch",
    address: { line: line.id, bar: 0, at: 0 as Ticks },
    message: lowASentence(line.setup, score.bandA),
    cures: isBandA(fitting) ? [{ label: `Band at A ${shownNumber(fitting, 1)}`, edits }] : [],
  };
}

function repeatFindings(score: Score): readonly Finding[] {
  const line = score.lines[0]?.id ?? "";
  return repeatFaults(score.frames).map(({ bar, message, cures }) => ({
    kind: "repeat",
    address: { line, bar, at: 0 as Ticks },
    message,
    cures,
  }));
}
