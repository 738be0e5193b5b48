/**
 * The one place that knows which libraries there are for the peripheral's role. Both are CommonJS. The
 * environment variable EBBLINE_PERIPHERAL_LIBRARY with the name of one of the two loads that one only.
 */
import { createRequire } from 'node:module';
import { isPeripheralLibrary, type PeripheralLibrary } from './peripheral-library.ts';

/** The maintained one first; the other where loading that fails. */
const LIBRARIES = ['@stoprocent/bleno', '@abandonware/bleno'] as const;

export type LoadedPeripheralLibrary =
  | { readonly ok: true; readonly name: string; readonly library: PeripheralLibrary }
  | {
      readonly ok: false;
      readonly problem: 'no_bluetooth' | 'no_library';
      /** What each of them said. */
      readonly detail: string;
    };

export function loadPeripheralLibrary(
  only = process.env['EBBLINE_PERIPHERAL_LIBRARY'],
): LoadedPeripheralLibrary {
  const load = createRequire(import.meta.url);
  const failures: string[] = [];
  for (const name of LIBRARIES) {
    if (only !== undefined && only !== name) continue;
    try {
      const library: unknown = load(name);
      if (isPeripheralLibrary(library)) return { ok: true, name, library };
      failures.push(`${name}: it is not of the expected shape`);
    } catch (error) {
      const [line = ''] = String(error instanceof Error ? error.message : error).split('\n');
      // The library is sound but the kernel knows no Bluetooth: another library can't help that.
      if (error instanceof Error && 'code' in error && error.code === 'EAFNOSUPPORT') {
        return { ok: false, problem: 'no_bluetooth', detail: `${name}: ${line}` };
      }
      failures.push(`${name}: ${line}`);
    }
  }
  const none = `EBBLINE_PERIPHERAL_LIBRARY is ${only}, which is none of ${LIBRARIES.join(', ')}`;
  return { ok: false, problem: 'no_library', detail: failures.join('; ') || none };
}
