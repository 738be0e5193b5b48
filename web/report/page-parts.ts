/** What the report's sections are made of. */
import { type Markup, markup, NOTHING } from '../figure/markup.ts';
import type { NumberGroup } from '../words/number-row.ts';

export interface Fact {
  readonly name: string;
  readonly value: string;
}

export function section(title: string, ...content: readonly Markup[]): Markup {
  return markup`<section><h2>${title}</h2>
${content}
</section>`;
}

export function factTable(facts: readonly Fact[]): Markup {
  const rows = facts.map(
    ({ name, value }) => markup`<tr><th scope="row">${name}</th><td>${value}</td></tr>`,
  );
  return markup`<table class="facts"><tbody>
${rows}
</tbody></table>`;
}

export function numberGroup({ title, rows, notes }: NumberGroup): Markup {
  return markup`<h3>${title}</h3>
${factTable(rows)}
${notes.map((note) => paragraph(note, 'quiet'))}
`;
}

export function listTable(
  columns: readonly string[],
  rows: readonly (readonly string[])[],
): Markup {
  const headings = columns.map((column) => markup`<th scope="col">${column}</th>`);
  const lines = rows.map((cells) => {
    return markup`<tr>${cells.map((cell) => markup`<td>${cell}</td>`)}</tr>`;
  });
  return markup`<table class="list"><thead><tr>${headings}</tr></thead><tbody>
${lines}
</tbody></table>`;
}

/** Nothing where there is nothing to say. */
export function paragraph(text: string, kind = 'plain'): Markup {
  return text === '' ? NOTHING : markup`<p class="${kind}">${text}</p>\n`;
}
