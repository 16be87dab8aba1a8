import { type RankedSetup, rankSetups } from "../../arranging/rank-setups.ts";
import { likelyKey, songKey } from "../../arranging/rank-song-key.ts";
import { isPlayerId, playerOf } from "../../ensemble/catalogue.ts";
import type { Player } from "../../ensemble/player.ts";
import { CROSS_FINGERED_NOTES, type CrossFingeredNote } from "../../pipes/chanter-note.ts";
import { defaultCrossFingerings } from "../../pipes/cross-fingerings.ts";
import { CHANTER_NAMES, type ChanterName, defaultSetup } from "../../pipes/default-setups.ts";
import { isLowA } from "../../pipes/low-a.ts";
import type { PipeSetup } from "../../pipes/pipe-setup.ts";
import { keyName } from "../../pitch/key-signature.ts";
import { melodyGuesses } from "../../song/melody-guess.ts";
import type { Song, SongNote } from "../../song/song.ts";
import { hertz } from "../../units/hertz.ts";
import { ReadError } from "../../units/read-error.ts";
import { rounded } from "../../units/shown.ts";
import type { Command, CommandArguments } from "../command.ts";
import { readSongFile } from "../read-song-file.ts";
import { textTable } from "../text-table.ts";

/** `ninefold rank`: which chanter and key suit a song. */
export const command: Command = {
  name: "rank",
  positionals: ["FILE"],
  options: {
    line: { kind: "value", value: "N", help: "the line that the pipes play, from 1 (else the likely tune)" },
    bars: { kind: "value", value: "A-B", help: "only these bars, as they are numbered" },
    own: { kind: "value", value: "A,Bb,B,479", help: "the piper's chanters, by name or hertz of low A (A,Bb,B)" },
    speaks: { kind: "value", value: "NOTE,…", help: `cross-fingerings that speak: ${CROSS_FINGERED_NOTES.join(", ")}` },
    drones: { kind: "value", value: "on|off", help: "whether the drones sound (on)" },
    band: { kind: "value", value: "fiddle,…", help: "who reads a part" },
  },
  async run(given, { resolvePath }) {
    const { values, positionals } = given;
    const [file] = positionals as readonly [string];
    const setups = setupsFrom(given);
    const band = listed(values.band).map(playerFrom);
    const song = await readSongFile(resolvePath(file), file, {});
    const notes = notesFrom(given, song);
    const rows = rankSetups({ notes, key: songKey(song) ?? likelyKey(notes), setups, band });
    const reports = rows.map((row) => reportOf(row, listed(values.own ?? "A,Bb,B")[setups.indexOf(row.setup)] ?? ""));
    return given.flags.has("json") ? JSON.stringify({ setups: reports }) : inWords(reports);
  },
};

type RankReport = ReturnType<typeof reportOf>;

function reportOf(row: RankedSetup, chanter: string) {
  const { concertKey, writtenKey, semitones, share, changed, folded, crossFingered, drone, cost } = row;
  return {
    chanter,
    concertKey: keyName(concertKey),
    writtenKey: keyName(writtenKey),
    semitones,
    kept: rounded(share, 6),
    changed,
    folded,
    crossFingered,
    drone,
    cost: rounded(cost, 6),
    singerLowest: row.singerLowest,
    singerHighest: row.singerHighest,
    worstSignature: row.worstSignature,
  };
}

function inWords(reports: readonly RankReport[]): string {
  const head = ["chanter", "band plays", "you read", "kept", "changed", "folded", "cross-fingered", "band moves"];
  const rows = reports.map((row) =>
    [
      row.chanter,
      row.concertKey,
      row.writtenKey,
      `${rounded(row.kept * 100, 1)} %`,
      row.changed,
      row.folded,
      row.crossFingered,
      row.semitones,
    ].map(String),
  );
  return textTable(head, rows, ["left", "left", "left", "right", "right", "right", "right", "right"]);
}

function listed(text: string | undefined): readonly string[] {
  return text === undefined ? [] : text.split(",").map((word) => word.trim());
}

function setupsFrom({ values }: CommandArguments): readonly PipeSetup[] {
  const speaking = listed(values.speaks).map((word): CrossFingeredNote => {
    const note = CROSS_FINGERED_NOTES.find((one) => one === word);
    if (note === undefined) throw refusal("--speaks", CROSS_FINGERED_NOTES.join(", "), word);
    return note;
  });
  const drones = values.drones ?? "on";
  if (drones !== "on" && drones !== "off") throw refusal("--drones", "on or off", drones);
  return listed(values.own ?? "A,Bb,B").map((word) => {
    const named = CHANTER_NAMES.find((name): name is ChanterName => name === word);
    if (named === undefined && !isLowA(Number(word))) throw refusal("--own", "A, Bb, B or hertz of low A, with commas between", word);
    const setup = defaultSetup(named ?? hertz(Number(word)));
    return {
      ...setup,
      crossFingerings: defaultCrossFingerings(speaking),
      drones: setup.drones.map((drone) => ({ ...drone, on: drones === "on" })),
    };
  });
}

function playerFrom(id: string): Player {
  if (!isPlayerId(id)) throw refusal("--band", "players such as fiddle,trumpet-bb,guitar", id);
  return playerOf(id);
}

function notesFrom({ values }: CommandArguments, song: Song): readonly SongNote[] {
  const number = values.line === undefined ? (melodyGuesses(song)[0]?.line ?? 0) + 1 : Number(values.line);
  const line = song.lines[number - 1];
  if (!line) throw refusal("--line", `a line from 1 to ${song.lines.length}`, values.line ?? "");
  const bars = /^(\d+)-(\d+)$/.exec(values.bars ?? "0-999999");
  if (!bars) throw refusal("--bars", "bars such as 5-12", values.bars ?? "");
  const [from, to] = [Number(bars[1]), Number(bars[2])];
  const notes = line.notes.filter(({ bar }) => (song.bars[bar]?.number ?? 0) >= from && (song.bars[bar]?.number ?? 0) <= to);
  if (notes.length === 0) throw refusal("--bars", "bars in which the line has notes", values.bars ?? "");
  return notes;
}

function refusal(where: string, expected: string, found: string): ReadError {
  return new ReadError({ where, expected, found: JSON.stringify(found) });
}
