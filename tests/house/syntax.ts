import { parseSync } from "rolldown/utils";

/** A node of the syntax tree, as far as the rules look at it. */
export interface SyntaxNode {
  readonly type: string;
  readonly [key: string]: unknown;
}

/** What the rules want to know about one file. */
export interface FileSyntax {
  /** Every module it names, type imports, re-exports, `import()` and `import("…")` types included; in the order they stand. */
  readonly imports: readonly string[];
  readonly nodes: readonly SyntaxNode[];
}

/** @throws RangeError where the text is not TypeScript */
export function syntaxOf(path: string, text: string): FileSyntax {
  const { program, errors } = parseSync(path, text);
  if (errors.length > 0) throw new RangeError(`${path}: ${errors[0]?.message}`);
  const nodes = nodesIn(program);
  const imports = nodes.flatMap((node) => (NAMES_A_MODULE.has(node.type) && isNode(node.source) ? [String(node.source.value)] : []));
  return { imports, nodes };
}

const NAMES_A_MODULE = new Set(["ImportDeclaration", "ExportNamedDeclaration", "ExportAllDeclaration", "ImportExpression", "TSImportType"]);

function nodesIn(value: unknown): SyntaxNode[] {
  if (Array.isArray(value)) return value.flatMap(nodesIn);
  if (typeof value !== "object" || value === null) return [];
  const inside = Object.values(value).flatMap(nodesIn);
  return isNode(value) ? [value, ...inside] : inside;
}

export function isNode(value: unknown): value is SyntaxNode {
  return typeof value === "object" && value !== null && typeof (value as { type?: unknown }).type === "string";
}
