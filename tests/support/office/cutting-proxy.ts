/** A way to a broker that is cut after so many bytes, as a network in a van is: both ends hear no more of each other. */
import { createServer, connect, type Socket } from 'node:net';

export interface CuttingProxy {
  readonly port: number;
  /** How many connections were cut so far, amid what they carried. */
  cuts(): number;
  remove(): Promise<void>;
}

/** @param cutAfterBytes of each connection in turn, both ways together; later ones stand */
export async function cuttingProxy(
  brokerPort: number,
  cutAfterBytes: readonly number[],
): Promise<CuttingProxy> {
  const left = [...cutAfterBytes];
  const open = new Set<Socket>();
  let cuts = 0;
  const server = createServer((near) => {
    const far = connect(brokerPort, '127.0.0.1');
    let bytesLeft = left.shift() ?? Infinity;
    for (const [from, to] of [
      [near, far],
      [far, near],
    ] as const) {
      open.add(from);
      from.on('error', () => undefined);
      from.on('close', () => {
        open.delete(from);
        to.destroy();
      });
      from.on('data', (bytes) => {
        if (bytesLeft === 0) return;
        // What is cut is cut amid a message: its beginning still arrives.
        to.write(bytes.subarray(0, bytesLeft));
        bytesLeft = Math.max(0, bytesLeft - bytes.length);
        if (bytesLeft > 0) return;
        cuts += 1;
        near.resetAndDestroy();
        far.end();
      });
    }
  });
  await new Promise<void>((resolve) => server.listen(0, '127.0.0.1', resolve));
  const address = server.address();
  if (typeof address !== 'object' || address === null) throw new Error('it listens on no port');
  return {
    port: address.port,
    cuts: () => cuts,
    remove: async () => {
      for (const socket of open) socket.destroy();
      await new Promise((resolve) => server.close(resolve));
    },
  };
}
