/** The ducts of a rig as they stand now: what passes between which sections. */
import type { Controls } from './controls.ts';
import { ductConductanceM3PerS } from './duct-conductance.ts';
import { flowFactorsOf, perGas } from './gases.ts';
import { totalPressurePa, type RigState } from './rig-state.ts';

/** A duct, by the positions of its ends. */
export interface Passage {
  readonly from: number;
  readonly to: number;
  /** A check valve: no gas goes through it from `to` to `from`. */
  readonly oneWay: boolean;
  /** Flow per difference of (partial) pressure, m³/s. */
  readonly conductanceM3PerS: number;
}

export function passagesOf(state: RigState, controls: Controls): Passage[] {
  const pressuresPa = state.sections.map((_, index) => totalPressurePa(state, index));
  return state.setup.ducts.flatMap((duct) => {
    const [from, to] = duct.between;
    const [fromPa, toPa] = [pressuresPa[from] ?? 0, pressuresPa[to] ?? 0];
    const opening = duct.valve === null ? 1 : (controls.openings[duct.valve] ?? 1);
    if (opening <= 0) return [];
    const [here, there] = [state.sections[from], state.sections[to]];
    const factors = flowFactorsOf(
      perGas((gas) => (here?.gasMol[gas] ?? 0) + (there?.gasMol[gas] ?? 0)),
    );
    const conductanceM3PerS = ductConductanceM3PerS(
      duct,
      { coreOut: controls.coresOut, opening },
      (fromPa + toPa) / 2,
      factors,
    );
    return [{ from, to, oneWay: duct.oneWay, conductanceM3PerS }];
  });
}
