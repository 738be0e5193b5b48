/** The parts of a report's document as markup of a page. */
import { Markup, markup, NOTHING } from '../figure/markup.ts';
import type {
  Block,
  Fact,
  ListBlock,
  Section,
  SignOffBlock,
  VerdictBlock,
} from './report-document.ts';

export function writeSection({ heading, blocks }: Section): Markup {
  return markup`<section><h2>${heading}</h2>
${blocks.map(writeBlock)}
</section>
`;
}

export function writeBlock(block: Block): Markup {
  switch (block.kind) {
    case 'banner':
      return markup`<div class="banner" role="note"><b>${block.name}</b>${block.statement}</div>`;
    case 'title':
      return markup`<h1>${block.text}</h1>\n`;
    case 'heading':
      return markup`<h3>${block.text}</h3>\n`;
    case 'paragraph':
      return writeParagraph(block.text, block.manner);
    case 'facts':
      return writeFacts(block.facts);
    case 'list':
      return writeList(block);
    case 'verdict':
      return writeVerdict(block);
    case 'figure':
      return markup`<figure><h3>${block.title}</h3>${new Markup(block.svg)}</figure>`;
    case 'hash':
      return writeParagraph(block.text, 'hash');
    case 'sign_off':
      return writeSignOff(block);
  }
}

function writeParagraph(text: string, kind: string): Markup {
  return markup`<p class="${kind}">${text}</p>\n`;
}

function writeFacts(facts: readonly Fact[]): Markup {
  const rows = facts.map(
    ({ name, value }) => markup`<tr><th scope="row">${name}</th><td>${value}</td></tr>`,
  );
  return markup`<table class="facts"><tbody>
${rows}
</tbody></table>\n`;
}

function writeList({ columns, rows }: ListBlock): Markup {
  const headings = columns.map((column) => markup`<th scope="col">${column}</th>`);
  const lines = rows.map((cells) => {
    return markup`<tr>${cells.map((cell) => markup`<td>${cell}</td>`)}</tr>`;
  });
  return markup`<table class="list"><thead><tr>${headings}</tr></thead><tbody>
${lines}
</tbody></table>\n`;
}

function writeVerdict({ tone, headline, sentences, rule }: VerdictBlock): Markup {
  const beside =
    rule === null
      ? NOTHING
      : markup`<p class="rule"><b>${rule.headline}</b> (${rule.name}). ${rule.remark}</p>`;
  return markup`<div class="verdict verdict-${tone}"><strong>${headline}</strong>
${sentences.map((sentence) => writeParagraph(sentence, 'plain'))}${beside}</div>`;
}

function writeSignOff({ columns, rows }: SignOffBlock): Markup {
  const headings = columns.map((name) => markup`<th scope="col">${name}</th>`);
  const lines = rows.map(({ signer, cells }) => {
    const entered = cells.map((cell) => markup`<td>${cell}</td>`);
    return markup`<tr><th scope="row">${signer}</th>${entered}</tr>`;
  });
  return markup`<table class="sign"><thead><tr><td></td>${headings}</tr></thead><tbody>${lines}</tbody></table>`;
}
