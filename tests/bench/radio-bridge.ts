/** A bridge in a process of its own on a virtual adapter, so that what it costs is not mixed with the air. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { z } from 'zod';
import { startBridge } from '../../server/main.ts';
import { RadioSource } from '../../server/sources/radio/radio-source.ts';

const settingSchema = z.object({
  environment: z.record(z.string(), z.string()),
  execArguments: z.array(z.string()),
});

const { environment, execArguments } = settingSchema.parse(JSON.parse(process.argv[2] ?? ''));
const dataFolder = mkdtempSync(join(tmpdir(), 'bench-bridge-'));
const sensors = new RadioSource({
  childEnvironment: environment,
  childExecArguments: execArguments,
});
const bridge = await startBridge({ port: 0, dataFolder }, { sensors });

process.on('message', (message) => {
  if (message === 'cost') {
    const { user, system } = process.cpuUsage();
    process.send?.({ processorS: (user + system) / 1e6, radioPid: sensors.pid ?? 0 });
    return;
  }
  void bridge.close().then(() => {
    rmSync(dataFolder, { recursive: true, force: true });
    process.exit();
  });
});
process.send?.('ready');
