/** A whole bridge on a free port with a record of its own, for one test file. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import type { Platform } from '../../protocol/stream.ts';
import { startBridge } from '../../server/main.ts';
import type { PublishOptions } from '../../server/publish-options.ts';
import type { Source } from '../../server/sources/source.ts';

/** Sensors that are never there, for tests that are not about them. */
const NO_SENSORS: Source = { id: 'radio', start: () => undefined, stop: () => Promise.resolve() };

export interface RunningBridge {
  readonly url: string;
  readonly dataFolder: string;
  /** Where it is shared now, and by which certificate. */
  sharedAt(): { readonly addresses: readonly string[]; readonly fingerprint: string };
  /** Stops the bridge and keeps its record, as a switched-off laptop does. */
  stop(): Promise<void>;
  /** Stops it and removes the record. */
  remove(): Promise<void>;
}

export async function runBridge({
  sensors = NO_SENSORS,
  dataFolder = mkdtempSync(join(tmpdir(), 'bridge-')),
  wallClock = Date.now,
  platform = 'linux',
  shareAddresses = [],
  publish = null,
}: {
  sensors?: Source;
  dataFolder?: string;
  wallClock?: () => number;
  platform?: Platform;
  /** With other screens, at these addresses; none: with nobody. */
  shareAddresses?: readonly string[];
  publish?: PublishOptions | null;
} = {}): Promise<RunningBridge> {
  const share = shareAddresses.length > 0 ? { port: 0, addresses: shareAddresses } : null;
  const surroundings = { sensors, wallClock, platform };
  const bridge = await startBridge({ port: 0, dataFolder, share, publish }, surroundings);
  return {
    url: bridge.url,
    dataFolder,
    sharedAt: () => bridge.sharedAt(),
    stop: () => bridge.close(),
    remove: async () => {
      await bridge.close();
      rmSync(dataFolder, { recursive: true, force: true });
    },
  };
}
