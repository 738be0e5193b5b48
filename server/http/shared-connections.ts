/** Which connections are whose, so that a screen that is unpaired loses them at once. */
import type { Duplex } from 'node:stream';

/** A page has one, and one more for each recording that it hears aside; several windows may be open. */
const MOST_STREAMS = { ofScreen: 12, inAll: 60 } as const;

export class SharedConnections {
  readonly #sockets = new Map<number, Set<Duplex>>();
  readonly #streams = new Map<number, Set<Duplex>>();

  /** Something was asked on it. */
  hold(screenId: number, socket: Duplex): void {
    add(this.#sockets, screenId, socket);
  }

  /** It becomes a stream. @returns whether it may */
  holdStream(screenId: number, socket: Duplex): boolean {
    const own = this.#streams.get(screenId)?.size ?? 0;
    const all = [...this.#streams.values()].reduce((sum, { size }) => sum + size, 0);
    if (own >= MOST_STREAMS.ofScreen || all >= MOST_STREAMS.inAll) return false;
    add(this.#streams, screenId, socket);
    return true;
  }

  /** Screens with a stream. */
  connected(): number[] {
    return [...this.#streams].flatMap(([id, { size }]) => (size > 0 ? [id] : []));
  }

  /**
   * At once, in the middle of whatever is on its way.
   * @param but the one on which this is asked, which has yet to be answered
   */
  end(screenId: number, but: Duplex | null = null): void {
    for (const socket of this.#sockets.get(screenId) ?? []) if (socket !== but) socket.destroy();
    this.#sockets.delete(screenId);
  }
}

function add(to: Map<number, Set<Duplex>>, screenId: number, socket: Duplex): void {
  const held = to.get(screenId) ?? new Set();
  to.set(screenId, held);
  if (held.has(socket)) return;
  held.add(socket);
  socket.once('close', () => held.delete(socket));
}
