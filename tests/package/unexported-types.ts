import { dirname } from 'node:path';
import ts from 'typescript';

/** What is only handed from one function to the next: nobody outside looks into it. */
const CLOSED = new Set(['PreparedDesign']);

/**
 * Types of the package that what its entries export speaks of by name, and that its users cannot name by any of them: `export: Type`. (What is
 * said as `typeof` of a value needs no name.) Types of the same folder or below are the package's own.
 */
export function unexportedTypes(...entries: readonly string[]): string[] {
  const program = ts.createProgram(entries, { module: ts.ModuleKind.NodeNext, noLib: true, types: [] });
  const checker = program.getTypeChecker();
  const resolved = (symbol: ts.Symbol): ts.Symbol =>
    symbol.flags & ts.SymbolFlags.Alias ? checker.getAliasedSymbol(symbol) : symbol;
  const exported = new Map(
    entries.flatMap((entry) =>
      checker
        .getExportsOfModule(checker.getSymbolAtLocation(program.getSourceFile(entry)!)!)
        .map((symbol) => [resolved(symbol), symbol.name] as const),
    ),
  );
  const home = dirname(entries[0]);
  const isOurs = (symbol: ts.Symbol): boolean =>
    !(symbol.flags & ts.SymbolFlags.TypeParameter) &&
    (symbol.declarations ?? []).some((declaration) => {
      const { fileName } = declaration.getSourceFile();
      return fileName.startsWith(home) && !fileName.includes('/node_modules/', home.length);
    });
  const found = new Set<string>();
  const visit = (of: string, node: ts.Node): void => {
    const isPrivate =
      ts.canHaveModifiers(node) &&
      ts.getModifiers(node)?.some(({ kind }) => kind === ts.SyntaxKind.PrivateKeyword);
    if (isPrivate) return;
    const name = typeNamedBy(node);
    const symbol = name && checker.getSymbolAtLocation(name);
    if (symbol && isOurs(resolved(symbol)) && !exported.has(resolved(symbol)))
      found.add(`${of}: ${name.getText()}`);
    ts.forEachChild(node, (child) => visit(of, child));
  };
  for (const [symbol, name] of exported) {
    if (CLOSED.has(name)) continue;
    for (const declaration of symbol.declarations ?? []) visit(name, declaration);
  }
  return [...found];
}

function typeNamedBy(node: ts.Node): ts.Node | undefined {
  if (ts.isTypeReferenceNode(node)) return node.typeName;
  if (ts.isExpressionWithTypeArguments(node)) return node.expression;
  return ts.isImportTypeNode(node) ? node.qualifier : undefined;
}
