/** Whether this is the long run (`npm run soak`). */
export const SOAKING = process.env.NINEFOLD_SOAK === "1";

/** How many random cases to try: so many in `npm test`, so many in `npm run soak`. */
export function cases(usual: number, soaking: number): number {
  return SOAKING ? soaking : usual;
}

/** How long a test may take, in ms: ample for the usual run, an hour for the long one. */
export const PATIENCE = SOAKING ? 3_600_000 : 60_000;
