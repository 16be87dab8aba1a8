/** A table for the terminal: a head, rows, two spaces between columns, no lines. Every row has as many cells as the head. */
export function textTable(head: readonly string[], rows: readonly (readonly string[])[], align: readonly ("left" | "right")[]): string {
  const widths = head.map((title, column) => Math.max(...[title, ...rows.map((row) => row[column] as string)].map((cell) => cell.length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((cell, column) => (align[column] === "right" ? cell.padStart(widths[column] as number) : cell.padEnd(widths[column] as number)))
      .join("  ")
      .trimEnd();
  return [head, ...rows].map(line).join("\n");
}
