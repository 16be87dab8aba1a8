/** The value that `share` of the others do not exceed (nearest rank). */
export function percentile(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b);
  const value = sorted[Math.max(0, Math.ceil(share * sorted.length) - 1)];
  if (value === undefined) throw new RangeError("no values");
  return value;
}

export function median(values: readonly number[]): number {
  return percentile(values, 0.5);
}

/** A whole number with the unit for people: `12.3 ms`. */
export function milliseconds(value: number): string {
  return `${value < 100 ? value.toFixed(1) : value.toFixed(0)} ms`;
}
