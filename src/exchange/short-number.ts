/** A number with at most so many decimals and no trailing zeros. */
export function shortNumber(value: number, places: number): string {
  const scale = 10 ** places;
  return String(Math.round(value * scale) / scale + 0);
}
