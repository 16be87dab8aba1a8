/** By daylight, by lamplight, or whichever the device is set to. */
export type Theme = "light" | "dark" | "device";

/** Every theme, with the words for it. */
export const THEMES: readonly { readonly theme: Theme; readonly words: string }[] = [
  { theme: "device", words: "as the device is set" },
  { theme: "light", words: "by daylight" },
  { theme: "dark", words: "by lamplight" },
];

/** Puts a theme on the page; the style sheet does the rest. */
export function showTheme(theme: Theme): void {
  if (theme === "device") delete document.documentElement.dataset.theme;
  else document.documentElement.dataset.theme = theme;
}

/** Whether a value read from the settings is a theme. */
export function isTheme(value: unknown): value is Theme {
  return THEMES.some(({ theme }) => theme === value);
}
