import { importFault, importRings } from "./import-rules.ts";
import { type FileSyntax, isNode, type SyntaxNode, syntaxOf } from "./syntax.ts";

/** A file longer than this is two things. */
const MOST_LINES = 500;

/** Paths that exist on one machine only. */
const MACHINE_PATH = /(?<![\w.}>])\/(?:work|root|home|tmp)\/\w/;

/** Addresses of package registries; which one is used is each user's own setting. */
const REGISTRY = /https?:\/\/[^\s"/]*(?:registry|npmjs)[^\s"]*/;

/**
 * What in these files breaks a rule of the house, a line each: `file: what`. Empty when all is well.
 *
 * @param files text by path from the project's folder, with `/` between
 */
export function brokenRules(files: ReadonlyMap<string, string>): string[] {
  const code = [...files].filter(([path]) => /^(?:src|components)\/.*\.ts$/.test(path));
  const syntaxes = new Map(code.map(([path, text]) => [path, syntaxOf(path, text)]));
  const paths = new Set(syntaxes.keys());
  return [
    ...[...files].flatMap(([path, text]) => textFaults(path, text).map((fault) => `${path}: ${fault}`)),
    ...[...syntaxes].flatMap(([path, syntax]) => syntaxFaults(path, syntax, paths).map((fault) => `${path}: ${fault}`)),
    ...importRings(syntaxes).map((ring) => `a ring of imports: ${ring}`),
  ];
}

function textFaults(path: string, text: string): string[] {
  const faults: string[] = [];
  const machinePath = MACHINE_PATH.exec(text);
  if (machinePath) faults.push(`a path of one machine: ${machinePath[0]}`);
  const registry = REGISTRY.exec(text);
  if (registry) faults.push(`the address of a registry: ${registry[0]}`);
  const lines = text.split("\n").length;
  if (/\.(?:ts|mjs)$/.test(path) && lines > MOST_LINES) faults.push(`${lines} lines; split it`);
  if (/^(?:src|components)\/(?:.*\/)?index\.ts$/.test(path)) faults.push("no barrels: import the file that has it");
  return faults;
}

function syntaxFaults(path: string, syntax: FileSyntax, paths: ReadonlySet<string>): string[] {
  const inComponents = path.startsWith("components/");
  const pure = path.startsWith("src/") && !path.startsWith("src/cli/");
  return [
    ...syntax.imports.flatMap((specifier) => importFault(path, specifier, paths) ?? []),
    ...syntax.nodes.flatMap((node) => [
      ...(languageFault(node) ?? []),
      ...(pure ? (impurity(node) ?? []) : []),
      ...(inComponents ? (pageFault(node) ?? []) : []),
    ]),
  ];
}

function languageFault(node: SyntaxNode): string[] | null {
  switch (node.type) {
    case "TSEnumDeclaration":
      return ["enum: use a union of literals"];
    case "TSModuleDeclaration":
      return node.kind === "namespace" ? ["namespace: a file is one already"] : null;
    case "Decorator":
      return ["decorator: not part of the language yet"];
    case "TSAnyKeyword":
      return ["any: use unknown and check it once"];
    default:
      return null;
  }
}

/** The compiler refuses the page's globals in `src`; these belong to the language, so only this test can. */
function impurity(node: SyntaxNode): string[] | null {
  if (node.type === "NewExpression" && isNamed(node.callee, "Date")) return ["new Date: time comes in as a value"];
  if (node.type !== "MemberExpression") return null;
  if (isNamed(node.object, "Date")) return ["Date: time comes in as a value"];
  if (isNamed(node.object, "Math") && isNamed(node.property, "random")) return ["Math.random: the same input gives the same output"];
  return null;
}

function pageFault(node: SyntaxNode): string[] | null {
  if (node.type === "MemberExpression" && isNamed(node.property, "innerHTML")) return ["innerHTML: let Lit write it"];
  if (node.type === "Identifier" && (node.name === "unsafeHTML" || node.name === "unsafeSVG")) return [`${node.name}: let Lit write it`];
  if (node.type === "TaggedTemplateExpression" && (isNamed(node.tag, "html") || isNamed(node.tag, "svg"))) return styleFault(node);
  return null;
}

/** The page's policy refuses style attributes that are parsed; `style=${styleMap(…)}` sets properties instead. */
function styleFault(node: SyntaxNode): string[] | null {
  const quasis = (node.quasi as { quasis: readonly { value: { raw: string } }[] }).quasis;
  const literal = quasis.some(({ value }) => /\sstyle\s*=\s*(?:["'][^"']|[^"'\s])/.test(value.raw));
  return literal ? ['style="…" in a template: use a class or styleMap'] : null;
}

function isNamed(value: unknown, name: string): boolean {
  return isNode(value) && value.type === "Identifier" && value.name === name;
}
