/**
 * Fetches the panels in which the setup and the song's facts are changed. Nobody needs them to read a sketch, so they are no part of the first
 * load; they come when the pointer or the keys come near.
 */
export function panelsLoaded(): void {
  void import("./setup-panels.ts");
}
