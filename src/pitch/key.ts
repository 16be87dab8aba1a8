/** The modes a tune for the pipes is in. The minor is the natural minor. */
export type Mode = "major" | "mixolydian" | "dorian" | "minor";

/** A key: its tonic as a spelled pitch class (`E`, `Bb`, `C#`) and its mode. Concert or written is said where it stands. */
export interface Key {
  readonly tonic: string;
  readonly mode: Mode;
}
