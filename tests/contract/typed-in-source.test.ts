import { TypedInSource } from '../../server/sources/typed-in/typed-in-source.ts';
import { HandClock } from '../support/hand-clock.ts';
import { describeSourceContract } from './source-contract.ts';

describeSourceContract('a technician who types', () => {
  const clock = new HandClock();
  const source = new TypedInSource(() => clock.wallMs());
  return Promise.resolve({
    source,
    bringReadings: (count) => {
      for (let reading = 0; reading < count; reading += 1) {
        clock.pass(90_000);
        source.type({ pressurePa: 900 - reading, temperatureC: null });
      }
      return Promise.resolve();
    },
    close: () => source.stop(),
  });
});
