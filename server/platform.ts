/** What this computer runs, as far as it matters to a person looking for its Bluetooth. */
import type { Platform } from '../protocol/stream.ts';

const KNOWN: Readonly<Partial<Record<NodeJS.Platform, Platform>>> = {
  linux: 'linux',
  darwin: 'macos',
  win32: 'windows',
};

export function platformOf(platform: NodeJS.Platform): Platform {
  return KNOWN[platform] ?? 'other';
}
