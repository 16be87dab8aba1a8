/** A sketch that ships with the app, read only when it is opened. */
export interface Example {
  readonly name: string;
  readonly title: string;
  /** One sentence: what it shows. */
  readonly about: string;
  /** Its saved form. */
  readonly load: () => Promise<string>;
}

/** The examples, the one a first visit opens first. */
export const EXAMPLES: readonly Example[] = [
  {
    name: "paper-lantern-weather",
    title: "Paper Lantern Weather",
    about: "A pop song on the B chanter: the verse needs nothing but the nine, the chorus wants the leading tone. With a fiddle.",
    load: async () => (await import("../../examples/paper-lantern-weather.json?raw")).default,
  },
  {
    name: "the-long-light",
    title: "The Long Light",
    about: "A slow air for the pipes alone, with gracenotes, a pickup, and first and second endings.",
    load: async () => (await import("../../examples/the-long-light.json?raw")).default,
  },
  {
    name: "the-dry-dock-set",
    title: "The Dry Dock Set",
    about: "A set on a 480 Hz chanter against a band at 440: what that does to flute, fiddle and trumpet.",
    load: async () => (await import("../../examples/the-dry-dock-set.json?raw")).default,
  },
];
