/** Data towards a controller never overruns its buffers, and what is not urgent waits for them. */
import { expect, test } from 'vitest';
import { AclSender } from '../../../simulators/sensor/acl-sender.ts';

const nextTick = () => new Promise<void>((done) => setImmediate(done));

function senderWith(buffers: number): { sender: AclSender; sent: Buffer[] } {
  const sent: Buffer[] = [];
  const sender = new AclSender((packet) => sent.push(packet));
  sender.setBuffers(27, buffers);
  sender.begin(0x40);
  return { sender, sent };
}

test('passes no more packets than there are buffers, then the rest in order', () => {
  const { sender, sent } = senderWith(2);
  for (const byte of [1, 2, 3, 4]) expect(sender.send(Buffer.from([byte]))).toBe(true);
  expect(sent.map((packet) => packet.at(-1))).toEqual([1, 2]);
  sender.completed(1);
  expect(sent.map((packet) => packet.at(-1))).toEqual([1, 2, 3]);
  sender.completed(2);
  expect(sent.map((packet) => packet.at(-1))).toEqual([1, 2, 3, 4]);
});

test('cuts a long frame, its first part marked as such', () => {
  const { sender, sent } = senderWith(9);
  sender.send(Buffer.alloc(60));
  expect(sent.map((packet) => packet.readUInt16LE(3))).toEqual([27, 27, 6]);
  expect(sent.map((packet) => packet.readUInt16LE(1) >> 12)).toEqual([0, 1, 1]);
});

test('says that there is room only when nothing waits and a buffer is free', async () => {
  const { sender } = senderWith(2);
  let calls = 0;
  const count = (): void => {
    calls += 1;
  };
  sender.send(Buffer.from([1]));
  sender.whenRoom(count);
  expect(calls).toBe(0);
  await nextTick();
  expect(calls).toBe(1);
  for (const byte of [2, 3]) sender.send(Buffer.from([byte]));
  sender.whenRoom(count);
  await nextTick();
  sender.completed(1);
  expect(calls).toBe(1);
  sender.completed(1);
  expect(calls).toBe(2);
});

test('forgets what was on its way when the link ends, and has room again on the next', async () => {
  const { sender, sent } = senderWith(1);
  let isDrained = false;
  let calls = 0;
  for (const byte of [1, 2]) sender.send(Buffer.from([byte]));
  sender.whenRoom(() => (calls += 1));
  void sender.drained().then(() => (isDrained = true));
  sender.end();
  await nextTick();
  expect([isDrained, calls]).toEqual([true, 0]);
  expect(sender.send(Buffer.from([3]))).toBe(false);
  sender.begin(0x41);
  expect(sender.send(Buffer.from([4]))).toBe(true);
  expect(sent.map((packet) => packet.at(-1))).toEqual([1, 4]);
});
