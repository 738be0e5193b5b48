/**
 * What the pump check says of simulated pumps that are alone with the sensor, five to twenty minutes on:
 * `node --import tsx tests/bench/pump-checks.ts [FIRST] [COUNT]`.
 */
import { checkPump } from '../../web/plan/pump-check.ts';
import { blankedOff, PUMP_STATES } from '../support/blanked-off.ts';

const [first = '1001', count = '100'] = process.argv.slice(2);
const LOOKS_MIN = [5.5, 8, 12, 20];

for (const state of PUMP_STATES) {
  for (const isEntered of [true, false]) {
    const said = new Map<string, number>();
    for (let seed = Number(first); seed < Number(first) + Number(count); seed += 1) {
      const { readings, pumpOnS, ultimatePa } = blankedOff(state, seed, 60 * 20 + 1);
      for (const minutes of LOOKS_MIN) {
        const nowS = pumpOnS + 60 * minutes;
        const { verdict } = checkPump({
          readings: readings.filter(({ elapsedS }) => elapsedS <= nowS),
          pumpOnS,
          nowS,
          seesPump: true,
          ultimatePa: isEntered ? ultimatePa : null,
        });
        const key = `${minutes} min ${verdict}`;
        said.set(key, (said.get(key) ?? 0) + 1);
      }
    }
    const listed = [...said].sort(([a], [b]) => parseFloat(a) - parseFloat(b));
    const figure = isEntered ? 'its figure entered' : 'no figure entered';
    console.log(`${state}, ${figure}: ${listed.map(([key, n]) => `${key} ${n}`).join(', ')}`);
  }
}
