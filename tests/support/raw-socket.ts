/** A bare TCP connection to the bridge, for peers that don't behave as any library lets them. */
import { once } from 'node:events';
import { connect, type Socket } from 'node:net';

export async function rawSocket(url: string): Promise<Socket> {
  const socket = connect(Number(new URL(url).port), '127.0.0.1');
  // What becomes of it is what a test looks at.
  socket.on('error', () => undefined);
  await once(socket, 'connect');
  return socket;
}

/** The beginning of a stream, as a browser writes it (RFC 6455, section 1.3). */
export function upgradeRequest(path = '/stream', origin = 'http://127.0.0.1'): string {
  return [
    `GET ${path} HTTP/1.1`,
    'Host: 127.0.0.1',
    `Origin: ${origin}`,
    'Upgrade: websocket',
    'Connection: Upgrade',
    'Sec-WebSocket-Version: 13',
    'Sec-WebSocket-Key: dGhlIHNhbXBsZSBub25jZQ==',
    '\r\n',
  ].join('\r\n');
}

/** A connection to the stream that has been greeted, and reads nothing more until it is told to. */
export async function rawStream(url: string): Promise<Socket> {
  const socket = await rawSocket(url);
  socket.write(upgradeRequest());
  await once(socket, 'data');
  socket.pause();
  return socket;
}

const TEXT = 0x81;
const MASKED = 0x80;

/** A text message in one frame, with a mask of zeros (RFC 6455, section 5.2). */
export function frame(message: string | Buffer): Buffer {
  const payload = Buffer.from(message);
  const length =
    payload.length < 126
      ? Buffer.of(MASKED | payload.length)
      : Buffer.of(MASKED | 126, payload.length >> 8, payload.length & 0xff);
  return Buffer.concat([Buffer.of(TEXT), length, Buffer.alloc(4), payload]);
}
