import { noteName } from "../pipes/note-names.ts";
import { shownPitch, withSigns } from "../pitch/spelling.ts";
import { shownNumber } from "../units/shown.ts";
import type { PitchReport } from "./pitch-report.ts";
import { textTable } from "./text-table.ts";

/** The same facts as `PitchReport`, to be read in a terminal. */
export function pitchTable(report: PitchReport): string {
  return [lowALines(report), noteTable(report), droneLine(report), keyTable(report)].join("\n\n");
}

function lowALines({ lowA, otherWay, bandA, bandAToMatch }: PitchReport): string {
  if (Math.abs(lowA.cents) < 0.05)
    return `Low A sounds ${shownNumber(lowA.hz, 2)} Hz: ${shownPitch(lowA.concert)} exactly, for a band at A ${shownNumber(bandA, 2)}.`;
  const named = `Low A sounds ${shownNumber(lowA.hz, 2)} Hz. For a band at A ${shownNumber(bandA, 2)} that is ${against(lowA)}; a band at A ${shownNumber(bandAToMatch, 2)} has it exactly.`;
  if (!otherWay) return named;
  return `${named}\nThe other way: ${against(otherWay)}, a band at A ${shownNumber(otherWay.bandAToMatch, 2)}.`;
}

function noteTable({ notes }: PitchReport): string {
  const rows = notes.toReversed().map((row) => [noteName(row.note), shownPitch(row.concert), row.hz.toFixed(2), signedCents(row.cents)]);
  return textTable(["note", "concert", "hertz", "cents"], rows, ["left", "left", "right", "right"]);
}

function droneLine({ drones }: PitchReport): string {
  if (drones.length === 0) return "Drones: none sounding.";
  return `Drones: ${drones.map(({ drone, hz }) => `${drone} ${hz.toFixed(2)} Hz`).join(", ")}.`;
}

function keyTable({ keys }: PitchReport): string {
  const rows = keys.map((key) => [
    withSignsInTonic(key.concert),
    withSignsInTonic(key.written),
    noteName(key.tonic),
    key.needs.length === 0 ? "the nine" : key.needs.map(noteName).join(", "),
  ]);
  return textTable(["key in reach", "written", "tonic", "takes"], rows, ["left", "left", "left", "left"]);
}

function against({ concert, cents: off }: { readonly concert: PitchReport["lowA"]["concert"]; readonly cents: number }): string {
  return `${shownPitch(concert)} ${signedCents(off)} cents`;
}

/** The tonic's accidental as a sign; the mode is a word. */
function withSignsInTonic(key: string): string {
  const [tonic, mode] = key.split(" ") as [string, string];
  return `${withSigns(tonic)} ${mode}`;
}

/** Cents with one decimal always, so that columns line up. */
function signedCents(value: number): string {
  const digits = Math.abs(value).toFixed(1);
  return digits === "0.0" ? digits : `${value < 0 ? "\u2212" : "+"}${digits}`;
}
