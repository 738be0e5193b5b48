/**
 * For `node --import`: hands the virtual socket to whoever requires the native one, and changes
 * nothing else. The native code is then never loaded.
 */
import Module from 'node:module';
import { VirtualSocket } from './virtual-socket.ts';

interface Loader {
  _load: (request: string, ...rest: unknown[]) => unknown;
}

const NATIVE_SOCKETS: readonly string[] = [
  '@abandonware/bluetooth-hci-socket',
  '@stoprocent/bluetooth-hci-socket',
];

function isLoader(value: unknown): value is Loader {
  return typeof value === 'function' && '_load' in value && typeof value._load === 'function';
}

const loader: unknown = Module;
if (!isLoader(loader)) throw new Error('this Node has no Module._load to replace the socket with');

const load = loader._load.bind(loader);
loader._load = (request, ...rest) =>
  NATIVE_SOCKETS.includes(request) ? VirtualSocket : load(request, ...rest);
