import { VirtualSensor } from '../../simulators/sensor/virtual-sensor.ts';
import { RadioRig } from '../support/radio-rig.ts';
import { describeSourceContract } from './source-contract.ts';

for (const library of ['@abandonware/noble', '@stoprocent/noble']) {
  describeSourceContract(`sensors over Bluetooth, by ${library}`, async () => {
    const rig = await RadioRig.create({ library });
    const sensor = new VirtualSensor(rig.air, { capabilities: { intervalMs: 4000 } });
    let listenedTo = false;
    return {
      source: rig.source,
      bringReadings: async (count) => {
        if (!listenedTo) await sensor.whenSubscribed();
        listenedTo = true;
        await sensor.play(
          Array.from({ length: count }, (_, place) => 900 - place),
          2,
        );
      },
      close: () => rig.close(),
    };
  });
}
