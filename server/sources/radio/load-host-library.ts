/**
 * The one place that knows which Bluetooth host libraries there are.
 *
 * The first is loaded wherever it can be; where loading fails (it ships no binaries, so an
 * installation without a compiler lacks it) its maintained fork takes its place. The environment
 * variable EBBLINE_RADIO_LIBRARY with the name of one of the two loads that one only.
 */
import { isHostLibrary, type HostLibrary } from './host-library.ts';

const LIBRARIES = ['@abandonware/noble', '@stoprocent/noble'] as const;

type Loaded =
  | { readonly ok: true; readonly name: string; readonly library: HostLibrary }
  | {
      readonly ok: false;
      readonly problem: 'no_bluetooth' | 'no_radio_library';
      readonly detail: string;
    };

export async function loadHostLibrary(
  only = process.env['EBBLINE_RADIO_LIBRARY'],
): Promise<Loaded> {
  const failures: string[] = [];
  for (const name of LIBRARIES) {
    if (only !== undefined && only !== name) continue;
    try {
      return { ok: true, name, library: await load(name) };
    } catch (error) {
      const detail = `${name}: ${error instanceof Error ? error.message : String(error)}`;
      // The library is sound but the kernel knows no Bluetooth: another library can't help that.
      if (isWithoutBluetooth(error)) return { ok: false, problem: 'no_bluetooth', detail };
      failures.push(detail);
    }
  }
  const none = `EBBLINE_RADIO_LIBRARY is ${only}, which is none of ${LIBRARIES.join(', ')}`;
  return { ok: false, problem: 'no_radio_library', detail: failures.join('; ') || none };
}

/** At run time both modules have the library itself as their default export, and nothing else. */
async function load(name: string): Promise<HostLibrary> {
  const loaded: unknown = await import(name);
  const library: unknown =
    typeof loaded === 'object' && loaded !== null ? Reflect.get(loaded, 'default') : undefined;
  if (!isHostLibrary(library)) throw new Error('it is not of the expected shape');
  return library;
}

function isWithoutBluetooth(error: unknown): boolean {
  return error instanceof Error && 'code' in error && error.code === 'EAFNOSUPPORT';
}
