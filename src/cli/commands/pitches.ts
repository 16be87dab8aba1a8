import { CROSS_FINGERED_NOTES, type CrossFingeredNote } from "../../pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../pipes/cross-fingerings.ts";
import { CHANTER_NAMES, type ChanterName, defaultSetup } from "../../pipes/default-setups.ts";
import { isLowA, LOW_A_REACH, lowACalled } from "../../pipes/low-a.ts";
import type { PipeSetup, PublishedScale } from "../../pipes/pipe-setup.ts";
import { SCALE_NAMES } from "../../pipes/scales.ts";
import { HIGHEST_BAND_A, isBandA, LOWEST_BAND_A, USUAL_BAND_A } from "../../pitch/reference-pitch.ts";
import { type Hertz, hertz } from "../../units/hertz.ts";
import { ReadError } from "../../units/read-error.ts";
import type { Command, CommandArguments } from "../command.ts";
import { pitchReport } from "../pitch-report.ts";
import { pitchTable } from "../pitch-table.ts";

/** `ninefold pitches`: what a set of pipes sounds against a band. */
export const command: Command = {
  name: "pitches",
  positionals: [],
  options: {
    chanter: { kind: "value", value: "A|Bb|B|HERTZ", help: "the chanter, or what its low A sounds in hertz (needed)" },
    "low-a-is": { kind: "value", value: "Bb|B|A", help: "what the piper calls low A; else the usual name for its hertz" },
    "band-a": { kind: "value", value: "HERTZ", help: "the band's A4, 380 to 480 (440)" },
    scale: { kind: "value", value: SCALE_NAMES.join("|"), help: "how the chanter is tuned (septimal)" },
    with: { kind: "value", value: "NOTE,…", help: `cross-fingerings that speak: ${CROSS_FINGERED_NOTES.join(", ")}` },
  },
  run(given) {
    const setup = setupFrom(given);
    const bandA = bandAFrom(given.values["band-a"]);
    const report = pitchReport(setup, bandA);
    return given.flags.has("json") ? JSON.stringify(report) : pitchTable(report);
  },
};

function setupFrom({ values }: CommandArguments): PipeSetup {
  const setup = defaultSetup(chanterFrom(values.chanter));
  return {
    ...setup,
    lowAIs: nameFrom(values["low-a-is"], setup),
    scale: { kind: "published", name: scaleFrom(values.scale) },
    crossFingerings: defaultCrossFingerings(notesFrom(values.with)),
  };
}

function chanterFrom(text: string | undefined): ChanterName | Hertz {
  if ((CHANTER_NAMES as readonly (string | undefined)[]).includes(text)) return text as ChanterName;
  const value = numberFrom(text);
  if (isLowA(value)) return hertz(value);
  const expected = `A, Bb, B, or what low A sounds in hertz, ${LOW_A_REACH.lowest} to ${LOW_A_REACH.highest}`;
  throw refusal("--chanter", expected, text);
}

function nameFrom(text: string | undefined, setup: PipeSetup): PipeSetup["lowAIs"] {
  if (text === undefined) return setup.lowAIs;
  const named = lowACalled(text, setup.lowA);
  if (named) return named;
  throw refusal("--low-a-is", `a pitch such as Bb within a whole tone of ${setup.lowAIs}`, text);
}

function bandAFrom(text: string | undefined): Hertz {
  if (text === undefined) return USUAL_BAND_A;
  const value = numberFrom(text);
  if (isBandA(value)) return hertz(value);
  throw refusal("--band-a", `hertz, ${LOWEST_BAND_A} to ${HIGHEST_BAND_A}`, text);
}

function scaleFrom(text: string | undefined): PublishedScale {
  if (text === undefined) return "septimal";
  const named = SCALE_NAMES.find((name) => name === text);
  if (named) return named;
  throw refusal("--scale", SCALE_NAMES.join(", "), text);
}

function notesFrom(text: string | undefined): readonly CrossFingeredNote[] {
  if (text === undefined || text === "") return [];
  return text.split(",").map((word) => {
    const note = CROSS_FINGERED_NOTES.find((name) => name === word.trim());
    if (note) return note;
    throw refusal("--with", CROSS_FINGERED_NOTES.join(", "), word);
  });
}

/** A plain decimal number; NaN for anything else (`Number` itself would take an empty text, hexadecimal and `1e3`). */
function numberFrom(text: string | undefined): number {
  return /^\d+(\.\d+)?$/.test(text ?? "") ? Number(text) : Number.NaN;
}

function refusal(where: string, expected: string, found: string | undefined): ReadError {
  return new ReadError({ where, expected, found: found === undefined ? "nothing" : JSON.stringify(found) });
}
