/** A report as one HTML file: nothing in it comes from elsewhere, and nothing in it runs. */
import { Markup, markup, NOTHING } from '../figure/markup.ts';
import { documentOf } from './document-of.ts';
import type { Report } from './report-model.ts';
import { reportStyle } from './report-style.ts';
import { writeBlock, writeSection } from './write-blocks.ts';

export function writeReport(report: Report): string {
  const { language, name, rehearsal, head, sections, running } = documentOf(report);
  const page = markup`<!doctype html>
<html lang="${language}">
<head>
<meta charset="utf-8">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta http-equiv="Content-Security-Policy" content="default-src 'none'; style-src 'unsafe-inline'">
<title>${name}</title>
<style>${new Markup(reportStyle(running.recording, rehearsal?.edge ?? ''))}</style>
</head>
<body>
${rehearsal === null ? NOTHING : markup`<div class="stamp" aria-hidden="true">${rehearsal.stamp}</div>`}
<header>
${head.map(writeBlock)}
</header>
<main>
${sections.map(writeSection)}
</main>
</body>
</html>
`;
  return page.text;
}
