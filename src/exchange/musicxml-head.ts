import { playerOf } from "../ensemble/catalogue.ts";
import type { PipeSetup } from "../pipes/pipe-setup.ts";
import type { Score } from "../score/score.ts";
import { rounded } from "../units/shown.ts";
import { PIPES_SOUND, soundOfPlayer } from "./musicxml-instruments.ts";
import type { Part } from "./musicxml-part.ts";
import { element, elementWith, unlessEmpty, type XmlElement } from "./xml.ts";

/** MIDI's drum channel, counted from 1; no part may have it. */
const DRUM_CHANNEL = 10;
const CHANNELS = 16;

/** What the file says of itself and of the music: who made it, which revision it is, what the band tunes to. */
export function identificationElement({ credits, revision, bandA }: Score, encodingDate: string | null): XmlElement {
  const supported = ["accidental", "beam", "stem"].map((name) => elementWith("supports", { element: name, type: "yes" }));
  return element(
    "identification",
    unlessEmpty("creator", { type: "composer" }, credits.composer),
    unlessEmpty("creator", { type: "arranger" }, credits.arranger),
    element(
      "encoding",
      encodingDate === null ? null : element("encoding-date", encodingDate),
      element("software", "Ninefold"),
      ...supported,
    ),
    element(
      "miscellaneous",
      field("revision", String(revision)),
      field("band A4 in hertz", String(rounded(bandA, 3))),
      unlessEmpty("miscellaneous-field", { name: "ensemble" }, credits.ensemble),
      unlessEmpty("miscellaneous-field", { name: "tune type" }, credits.tuneType),
    ),
  );
}

/** The list of players that stands before the music. */
export function partListElement(parts: readonly Part[]): XmlElement {
  return element("part-list", ...parts.map(scorePartElement));
}

function scorePartElement({ line, id }: Part, index: number): XmlElement {
  const isPipes = line.kind === "pipes";
  const { sound, program } = isPipes ? PIPES_SOUND : soundOfPlayer(line.player);
  const instrument = `${id}-I1`;
  return elementWith(
    "score-part",
    { id },
    isPipes ? element("identification", pipeFields(line.setup)) : null,
    element("part-name", line.name),
    elementWith(
      "score-instrument",
      { id: instrument },
      element("instrument-name", isPipes ? "Highland pipes" : playerOf(line.player).name),
      element("instrument-sound", sound),
    ),
    elementWith("midi-instrument", { id: instrument }, element("midi-channel", channelOf(index)), element("midi-program", program)),
  );
}

/** What the pipes really sound: the format has no place for a reference pitch but these. */
function pipeFields({ lowA, lowAIs, scale }: PipeSetup): XmlElement {
  return element(
    "miscellaneous",
    field("low A in hertz", String(rounded(lowA, 3))),
    field("low A is called", lowAIs),
    field("chanter scale", scale.kind === "published" ? scale.name : "measured"),
  );
}

function field(name: string, text: string): XmlElement {
  return elementWith("miscellaneous-field", { name }, text);
}

/** A channel for each part, counted from 1, the drums' left out. From the sixteenth part on they are shared. */
function channelOf(index: number): number {
  const place = (index % (CHANNELS - 1)) + 1;
  return place < DRUM_CHANNEL ? place : place + 1;
}
