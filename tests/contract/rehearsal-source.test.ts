import { RehearsalSource } from '../../server/sources/rehearsal/rehearsal-source.ts';
import { scenarioNamed } from '../../server/sources/rehearsal/scenario-named.ts';
import { HandClock } from '../support/hand-clock.ts';
import { describeSourceContract } from './source-contract.ts';

describeSourceContract('a rehearsal', () => {
  const clock = new HandClock();
  const source = new RehearsalSource({
    scenario: scenarioNamed('quarry-road-bakery'),
    seed: 5,
    rate: 60,
    helper: true,
    clock,
  });
  return Promise.resolve({
    source,
    bringReadings: (count) => {
      clock.pass(count * 1000);
      return Promise.resolve();
    },
    close: () => source.stop(),
  });
});
