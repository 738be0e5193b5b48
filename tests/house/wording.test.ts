/** No component says anything by itself: what people read comes out of the wording, in their language. */
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import ts from 'typescript';
import { expect, test } from 'vitest';

const WEB = fileURLToPath(new URL('../../web', import.meta.url));
/** The name of the program. */
const NAMES = new Set(['Ebbline']);
/** Attributes that somebody reads or hears. */
const SAID =
  /^(title|alt|placeholder|label|legend|content|description|aria-(label|valuetext|description|roledescription|placeholder))$/u;

/** Words that are said by the component itself, by their lines. */
function saidBy(name: string, source: string): string[] {
  const file = ts.createSourceFile(name, source, ts.ScriptTarget.ESNext, true, ts.ScriptKind.TSX);
  const found: string[] = [];
  const note = (text: string, node: ts.Node) => {
    const words = (text.match(/\p{L}{2,}/gu) ?? []).filter((word) => !NAMES.has(word));
    const { line } = file.getLineAndCharacterOfPosition(node.getStart(file));
    if (words.length > 0) found.push(`${name}:${line + 1} ${text.trim()}`);
  };
  const visit = (node: ts.Node): void => {
    if (ts.isJsxText(node)) note(node.text, node);
    else if (ts.isJsxAttribute(node) && SAID.test(node.name.getText(file))) {
      if (node.initializer !== undefined) noteValue(node.initializer, note);
    } else if (ts.isJsxExpression(node) && !ts.isJsxAttribute(node.parent)) {
      if (node.expression !== undefined) noteValue(node.expression, note);
    }
    ts.forEachChild(node, visit);
  };
  visit(file);
  return found;
}

/** What an expression may come to, as far as its letters stand in it. */
function noteValue(node: ts.Node, note: (text: string, node: ts.Node) => void): void {
  if (ts.isStringLiteral(node) || ts.isNoSubstitutionTemplateLiteral(node)) note(node.text, node);
  else if (ts.isTemplateExpression(node)) {
    note(
      [node.head, ...node.templateSpans.map(({ literal }) => literal)]
        .map(({ text }) => text)
        .join(' '),
      node,
    );
    for (const span of node.templateSpans) noteValue(span.expression, note);
  } else if (ts.isConditionalExpression(node)) {
    noteValue(node.whenTrue, note);
    noteValue(node.whenFalse, note);
  } else if (ts.isBinaryExpression(node)) {
    const { kind } = node.operatorToken;
    const joins = kind === ts.SyntaxKind.PlusToken || kind === ts.SyntaxKind.QuestionQuestionToken;
    if (joins || kind === ts.SyntaxKind.BarBarToken) noteValue(node.left, note);
    if (
      joins ||
      kind === ts.SyntaxKind.BarBarToken ||
      kind === ts.SyntaxKind.AmpersandAmpersandToken
    ) {
      noteValue(node.right, note);
    }
  } else if (ts.isParenthesizedExpression(node) || ts.isJsxExpression(node)) {
    if (node.expression !== undefined) noteValue(node.expression, note);
  }
}

const components = readdirSync(WEB, { recursive: true, encoding: 'utf8' })
  .filter((path) => path.endsWith('.tsx') && !path.startsWith('dist'))
  .sort();

test('components have no words of their own', () => {
  expect(components.length).toBeGreaterThan(40);
  const said = components.flatMap((path) => saidBy(path, readFileSync(join(WEB, path), 'utf8')));
  expect(said).toEqual([]);
});

test.each([
  ['<p>Nothing yet</p>', 'Nothing yet'],
  ['<p>{ok ? "Saved" : words.wrong}</p>', 'Saved'],
  ['<p>{count > 0 && `And ${count} more`}</p>', 'And   more'],
  ['<button aria-label="Zoom in" />', 'Zoom in'],
  ['<input placeholder={name ?? "none"} />', 'none'],
])('%s is caught', (markup, words) => {
  expect(saidBy('planted.tsx', `const it = ${markup};`)).toEqual([`planted.tsx:1 ${words}`]);
});

test.each([
  '<b data-testid="number" class={low ? "battery low" : "battery"}>{words.none}</b>',
  '<button onClick={() => (panel.value = "sheet")}>+</button>',
  '<span>{kind === "live" ? digits : ""}</span>',
  '<span>Ebbline</span>',
])('%s is not', (markup) => {
  expect(saidBy('planted.tsx', `const it = ${markup};`)).toEqual([]);
});
