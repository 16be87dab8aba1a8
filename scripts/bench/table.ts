/** One line of the table. */
export interface Row {
  readonly what: string;
  readonly value: string;
  /** What it shall reach; left out where nothing was promised. */
  readonly goal?: string;
}

/** The rows in three columns, for a screen of about 120 characters. */
export function tableOf(rows: readonly Row[]): string {
  const widest = (pick: (row: Row) => string): number => Math.max(...rows.map((row) => pick(row).length));
  const [what, value] = [widest((row) => row.what), widest((row) => row.value)];
  return rows.map((row) => `${row.what.padEnd(what)}  ${row.value.padStart(value)}${row.goal ? `   goal ${row.goal}` : ""}`).join("\n");
}
