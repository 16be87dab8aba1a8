import { type Beat, clearestBeat } from "../acoustics/beats.ts";
import { type DissonancePoint, dissonanceBetween, dissonanceCurve } from "../acoustics/dissonance.ts";
import type { Partial, Spectrum } from "../acoustics/partial.ts";
import type { ChanterNote } from "../pipes/chanter-note.ts";
import { droneHertz, soundingDrones } from "../pipes/drones.ts";
import type { Drone, PipeSetup } from "../pipes/pipe-setup.ts";
import { centsOffBand, concertPitchOf, hertzOf } from "../pipes/sounding.ts";
import type { ConcertPitch } from "../pitch/concert-pitch.ts";
import { type Cents, cents, centsBetween } from "../units/cents.ts";
import { type Decibels, decibels } from "../units/decibels.ts";
import { type Hertz, hertz } from "../units/hertz.ts";
import { bandPartials, chanterPartials, dronePartialsHeard } from "./sounding-partials.ts";

/** What sounds beside the chanter: nothing but drones where `band` is empty. */
export interface Company {
  readonly band: readonly BandTone[];
  readonly bandA: Hertz;
  /** The level of each voice against the others; what is left out is as in a blend nobody has touched. */
  readonly levels?: { readonly chanter: Decibels; readonly drones: Decibels };
}

/** One pitch that the band sounds. */
export interface BandTone {
  readonly pitch: ConcertPitch;
  readonly spectrum: Spectrum;
  readonly level: Decibels;
}

/** A beat and what it is with. */
export interface BeatWith<Name> extends Beat {
  readonly with: Name;
}

/** What the ear will judge of one chanter note in company. */
export interface JudgedNote {
  readonly note: ChanterNote;
  readonly hertz: Hertz;
  readonly concert: ConcertPitch;
  /** Above the band's own pitch of that name; below, if negative. */
  readonly offBand: Cents;
  /** The partial of the lowest drone that sounds nearest to it, and how far above that the note lies; null where all are off. */
  readonly offDrone: { readonly drone: Drone["name"]; readonly partial: number; readonly cents: Cents } | null;
  /** Whether anybody sounds beside pipes and drones. */
  readonly inBand: boolean;
  /** With each of the band's pitches that it beats with, slowest first. */
  readonly beatsWithBand: readonly BeatWith<ConcertPitch>[];
  /** With each drone that it beats with, the clearest of each; two drones of one name once. */
  readonly beatsWithDrones: readonly BeatWith<Drone["name"]>[];
  /** Sensory dissonance against everything beside it, in units of amplitude where a sound of 0 dB has the effective value 1. */
  readonly dissonance: number;
  /** The same, were the note up to 50 cents lower or higher, in steps of one cent. */
  readonly curve: readonly DissonancePoint[];
}

/** As in a blend nobody has touched. */
const USUAL = { chanter: decibels(-6), drones: decibels(-14) };

/** How far each way the curve goes, and how finely, cents. */
const REACH = cents(50);
const STEP = cents(1);

/** Faster than this is no longer counted as beats but heard as roughness, in hertz. *Source:* common practice: about 15 to 20. */
const COUNTABLE = 20;

/** Judges a chanter note against its drones and what the band sounds. The spectra are synthetic: compare its figures with one another, not with a meter. */
export function judgedNote(setup: PipeSetup, note: ChanterNote, company: Company): JudgedNote {
  const levels = company.levels ?? USUAL;
  const own = chanterPartials(setup, note, levels.chanter);
  const drones = soundingDrones(setup);
  const dronesHeard = drones.map((drone) => ({ with: drone.name, partials: dronePartialsHeard(setup, drone, levels.drones) }));
  const bandHeard = company.band.map(({ pitch, spectrum, level }) => ({
    with: pitch,
    partials: bandPartials(pitch, company.bandA, spectrum, level),
  }));
  const beside = [...dronesHeard, ...bandHeard].flatMap(({ partials }) => partials);
  return {
    note,
    hertz: hertzOf(setup, note),
    concert: concertPitchOf(setup, note),
    offBand: centsOffBand(setup, note, company.bandA),
    offDrone: nearestPartial(setup, note, drones[0]),
    inBand: company.band.length > 0,
    beatsWithBand: beatsWith(own, bandHeard),
    beatsWithDrones: beatsWith(own, dronesHeard),
    dissonance: dissonanceBetween(own, beside),
    curve: dissonanceCurve(own, beside, REACH, STEP),
  };
}

function nearestPartial(setup: PipeSetup, note: ChanterNote, drone: Drone | undefined): JudgedNote["offDrone"] {
  if (drone === undefined) return null;
  const [own, fundamental] = [hertzOf(setup, note), droneHertz(setup, drone)];
  // By cents and not by hertz: the lower of two neighbours is further away than it looks.
  const below = Math.max(1, Math.floor(own / fundamental));
  const off = (partial: number) => centsBetween(hertz(fundamental * partial), own);
  const partial = Math.abs(off(below)) <= Math.abs(off(below + 1)) ? below : below + 1;
  return { drone: drone.name, partial, cents: off(partial) };
}

function beatsWith<Name>(
  own: readonly Partial[],
  others: readonly { readonly with: Name; readonly partials: readonly Partial[] }[],
): readonly BeatWith<Name>[] {
  const found = new Map<Name, BeatWith<Name>>();
  for (const { with: name, partials } of others) {
    const beat = clearestBeat(own, partials);
    if (beat !== null && beat.perSecond <= COUNTABLE && !found.has(name)) found.set(name, { ...beat, with: name });
  }
  return [...found.values()].sort((one, other) => one.perSecond - other.perSecond);
}
