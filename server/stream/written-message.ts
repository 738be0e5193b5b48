/**
 * Messages as they go over the wire: each is written once, however many screens it goes to, and the same bytes wait
 * for all that read slowly.
 */
import type { ServerMessage } from '../../protocol/stream.ts';

const written = new WeakMap<ServerMessage, Buffer>();

export function writtenMessage(message: ServerMessage): Buffer {
  const present = written.get(message);
  if (present !== undefined) return present;
  const bytes = Buffer.from(JSON.stringify(message));
  written.set(message, bytes);
  return bytes;
}
