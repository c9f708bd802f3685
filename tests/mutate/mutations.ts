/** Changes of one decision each in a source file: a limit moved, a comparison or a sign turned, the other of two ways taken. */
import ts from 'typescript';

export interface Mutation {
  /** Of the text that is replaced. */
  readonly start: number;
  readonly end: number;
  readonly text: string;
  readonly line: number;
  /** For people: what was there and what is there instead. */
  readonly what: string;
}

/** A limit is moved by this share: what a finder or a synthesiser does must hang on it by then. */
const LIMIT_TIMES = 1.5;

const TURNED: Readonly<Partial<Record<ts.SyntaxKind, string>>> = {
  [ts.SyntaxKind.LessThanToken]: '>',
  [ts.SyntaxKind.LessThanEqualsToken]: '>',
  [ts.SyntaxKind.GreaterThanToken]: '<',
  [ts.SyntaxKind.GreaterThanEqualsToken]: '<',
  [ts.SyntaxKind.EqualsEqualsEqualsToken]: '!==',
  [ts.SyntaxKind.ExclamationEqualsEqualsToken]: '===',
  [ts.SyntaxKind.PlusToken]: '-',
  [ts.SyntaxKind.MinusToken]: '+',
  [ts.SyntaxKind.AsteriskToken]: '/',
  [ts.SyntaxKind.SlashToken]: '*',
  [ts.SyntaxKind.AmpersandAmpersandToken]: '||',
  [ts.SyntaxKind.BarBarToken]: '&&',
};

const OTHER_OF_TWO: Readonly<Record<string, string>> = {
  min: 'max',
  max: 'min',
  floor: 'ceil',
  ceil: 'floor',
};

/**
 * Every such change of a source file, in order.
 *
 * @param steps whether a step of one, as in `last + 1`, is left out as well
 */
export function mutationsOf(source: string, { steps = false } = {}): Mutation[] {
  const file = ts.createSourceFile('source.ts', source, ts.ScriptTarget.Latest, true);
  const out: Mutation[] = [];
  const put = (node: ts.Node, text: string) => {
    const start = node.getStart(file);
    const { line } = file.getLineAndCharacterOfPosition(start);
    const was = source.slice(start, node.end);
    out.push({ start, end: node.end, text, line: line + 1, what: `${was} → ${text}` });
  };
  const visit = (node: ts.Node): void => {
    if (ts.isTypeNode(node) || ts.isImportDeclaration(node)) return;
    const end = otherEnd(node);
    if (end !== null) put(node, end);
    else if (ts.isNumericLiteral(node) && isLimit(node)) put(node, `${Number(node.text) * LIMIT_TIMES}`);
    if (ts.isBinaryExpression(node)) {
      const turned = TURNED[node.operatorToken.kind];
      if (turned !== undefined) put(node.operatorToken, turned);
      if (steps && isStep(node)) put(node, node.left.getText(file));
    }
    if (ts.isPropertyAccessExpression(node) && node.expression.getText(file) === 'Math') {
      const other = OTHER_OF_TWO[node.name.text];
      if (other !== undefined) put(node.name, other);
    }
    if (ts.isConditionalExpression(node)) put(node.condition, `!(${node.condition.getText(file)})`);
    ts.forEachChild(node, visit);
  };
  visit(file);
  return out;
}

/**
 * Where a figure of a table of `of(value, low, high, …)` is moved to, as text: the end of its range, so that no look at the range alone shows it.
 * One that only bounds the work (its basis is `WORK`) decides nothing.
 */
function otherEnd(node: ts.Node): string | null {
  if (!isOfTable(node.parent)) return null;
  const [value, low, high, , basis] = node.parent.arguments;
  if (node !== value || basis?.getText() === 'WORK') return null;
  const end = high.getText() === value.getText() ? low : high;
  return end.getText() === value.getText() ? null : end.getText();
}

const isOfTable = (node: ts.Node | undefined): node is ts.CallExpression =>
  node !== undefined &&
  ts.isCallExpression(node) &&
  node.expression.getText() === 'of' &&
  node.arguments.length > 3;

const isStep = ({ operatorToken: { kind }, right }: ts.BinaryExpression): boolean =>
  (kind === ts.SyntaxKind.PlusToken || kind === ts.SyntaxKind.MinusToken) &&
  ts.isNumericLiteral(right) &&
  Number(right.text) === 1;

/** A number that somebody chose: neither a step of counting nor a place in a list. */
function isLimit(node: ts.NumericLiteral): boolean {
  const value = Number(node.text);
  if (value === 0 || value === 1 || value === 2) return false;
  return !ts.isElementAccessExpression(node.parent) && !isOfTable(node.parent);
}

export const mutated = (source: string, { start, end, text }: Mutation): string =>
  source.slice(0, start) + text + source.slice(end);
