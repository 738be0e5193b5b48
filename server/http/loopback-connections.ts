/**
 * Connections of programs on this computer, bounded in number. Whoever is idle longest makes room, so that however
 * many are opened, the page on the screen finds one. Streams are not counted: those have a bound of their own.
 */
import type { Server } from 'node:http';
import type { Duplex } from 'node:stream';

/** A browser opens six for each address. */
const MOST_CONNECTIONS = 256;

/** @param busy those on which something was asked and not answered yet */
export function boundConnections(
  server: Server,
  busy: () => ReadonlySet<Duplex>,
  most = MOST_CONNECTIONS,
): void {
  /** The oldest first. */
  const open = new Set<Duplex>();
  server.on('connection', (socket: Duplex) => {
    if (open.size >= most) {
      const asked = busy();
      const idle = [...open].find((one) => !asked.has(one));
      // Where all of them wait for an answer that will come, or are soon found to stand still.
      if (idle === undefined) {
        socket.destroy();
        return;
      }
      open.delete(idle);
      idle.destroy();
    }
    open.add(socket);
    socket.once('close', () => open.delete(socket));
  });
  server.on('upgrade', (_request, socket) => open.delete(socket));
}
