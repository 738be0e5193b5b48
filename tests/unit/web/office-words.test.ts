/** What the page says of an office that is not reached. */
import { expect, test } from 'vitest';
import { sayOffice } from '../../../web/words/say-office.ts';
import { speechOf } from '../../../web/words/speech-of.ts';

const UNREACHED = { kind: 'unreached', sinceMs: 5, waiting: 61_234 } as const;
const since = (ms: number) => `moment ${ms}`;

test.each([
  ['en', 'Office not reached since moment 5. Readings still to be sent: 61 234.'],
  ['es', 'Sin contacto con la oficina desde moment 5. Lecturas por enviar: 61 234.'],
] as const)('in %s: since when, and how much waits', (language, words) => {
  const speech = speechOf(language, { pressure: 'micron', temperature: '°C' });
  const said = sayOffice(UNREACHED, since, speech) ?? '';
  expect(said.replaceAll(/\s/gu, ' ')).toContain(words);
  for (const kind of ['untold', 'reached'] as const)
    expect(sayOffice({ kind }, since, speech)).toBeNull();
});
