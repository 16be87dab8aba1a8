/** How long a day the ear bears a level, by one published rule. */
export interface Exposure {
  /** dB(A) at the ear. */
  readonly level: number;
  readonly time: string;
  /** `published`, or `derived` from it by its own rule of 3 dB. */
  readonly from: "published" | "derived";
}

/**
 * The longest daily exposure, level by level.
 * *Source:* NIOSH publication 98-126 (1998): 85 dB(A) for 8 hours, half the time for every 3 dB more.
 */
export const EXPOSURES: readonly Exposure[] = [
  { level: 85, time: "8 hours", from: "published" },
  { level: 88, time: "4 hours", from: "published" },
  { level: 91, time: "2 hours", from: "published" },
  { level: 94, time: "1 hour", from: "published" },
  { level: 97, time: "30 minutes", from: "published" },
  { level: 100, time: "15 minutes", from: "published" },
  { level: 103, time: "7½ minutes", from: "derived" },
  { level: 106, time: "3 minutes 45 seconds", from: "derived" },
  { level: 108, time: "2 minutes 22 seconds", from: "derived" },
  { level: 111, time: "1 minute 11 seconds", from: "derived" },
];

/** The longest daily exposure at a level in dB(A), in seconds: 8 hours at 85, half for every 3 dB more. */
export function longestExposure(level: number): number {
  return (8 * 3600) / 2 ** ((level - 85) / 3);
}
