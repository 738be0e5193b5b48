/** What a van tells its office: the published document, the schemas and the topics say the same. */
import { readFileSync } from 'node:fs';
import { expect, test } from 'vitest';
import { z } from 'zod';
import { vanAskedSchema, vanMessagesSchemaDocument } from '../../../protocol/van-messages.ts';
import { readTopic, recordingTopic, vanTopic } from '../../../protocol/van-topics.ts';
import { understood } from '../../../server/vans/office/understood.ts';

const read = (file: string) =>
  readFileSync(new URL(`../../../protocol/${file}`, import.meta.url), 'utf8');
const document = read('van-topics.md');
const KEY = { recordingId: 12, startedAtMs: 1_795_687_200_000 };

test('the published schema is that of this program', () => {
  expect(JSON.parse(read('van-messages.schema.json'))).toEqual(vanMessagesSchemaDocument());
});

const examples = [...document.matchAll(/^`([a-z]+)`:\n+```json\n(.+)\n```/gmu)];

test('every kind of message has an example', () => {
  const { $defs } = z
    .object({ $defs: z.record(z.string(), z.unknown()) })
    .parse(JSON.parse(read('van-messages.schema.json')));
  const kinds = Object.keys($defs);
  expect(examples.map(([, kind]) => kind).sort()).toEqual(kinds.sort());
});

test.each(examples.map(([, kind = '', json = '']) => ({ kind, json })))(
  'the example of $kind is understood',
  ({ kind, json }) => {
    if (kind === 'asked') {
      expect(vanAskedSchema.parse(JSON.parse(json))).toEqual(JSON.parse(json));
      return;
    }
    const topic = [...document.matchAll(/`(ebbline\/1\/VAN\/[^`]+)`/gu)]
      .map(([, one = '']) => one.replace('VAN', 'van-7').replace('KEY', '1795687200000-12'))
      .find((one) => one.endsWith(`/${kind}`));
    expect(understood(topic ?? '', Buffer.from(json))).toEqual({
      kind,
      van: 'van-7',
      body: JSON.parse(json),
    });
  },
);

test('a topic is read as it was written, and nothing else is', () => {
  const topic = recordingTopic('van-7', KEY, 'readings');
  expect(topic).toBe('ebbline/1/van-7/recordings/1795687200000-12/readings');
  expect(readTopic(topic)).toEqual({ van: 'van-7', kind: 'readings' });
  expect(readTopic(vanTopic('van-7', 'asked'))).toEqual({ van: 'van-7', kind: 'asked' });
  for (const other of [
    'ebbline/2/van-7/state',
    'ebbline/1/Van 7/state',
    'ebbline/1/van-7/readings',
    'ebbline/1/van-7/recordings/1-1/state',
    'ebbline/1/van-7/recordings/1-1/readings/more',
    'ebbline/1',
  ]) {
    expect(readTopic(other), other).toBeNull();
  }
});
