/** Rigs that nobody would build and hands that nobody would trust: for properties that hold for all. */
import * as fc from 'fast-check';
import type { Controls } from '../../simulators/physics/controls.ts';
import { rigSetupSchema, type RigSetup } from '../../simulators/physics/rig-setup.ts';

/** Evenly spread, as doubles would not be: they crowd at 0. */
function between(low: number, high: number): fc.Arbitrary<number> {
  return fc.integer({ min: 0, max: 1000 }).map((part) => low + ((high - low) * part) / 1000);
}

/** Evenly spread over the logarithm, between two positive numbers. */
function magnitude(low: number, high: number): fc.Arbitrary<number> {
  return between(Math.log(low), Math.log(high)).map(Math.exp);
}

function zeroOr(some: fc.Arbitrary<number>): fc.Arbitrary<number> {
  return fc.oneof(fc.constant(0), some);
}

const surroundings = fc.record({
  temperatureK: between(245, 318),
  driftKPerS: between(-1e-3, 1e-3),
  swingK: between(0, 5),
  swingPeriodS: between(300, 3600),
  atmospherePa: between(70_000, 105_000),
  humidityPa: between(0, 3000),
});

const inflow = fc.record({
  name: fc.constant('somewhere'),
  intoVacuumPaM3PerS: magnitude(1e-7, 1e-1),
  from: fc.constantFrom('outside' as const, 'charge' as const),
  law: fc.constantFrom('opening' as const, 'permeation' as const),
  chargePa: between(200_000, 2_000_000),
  endsWhenTightened: fc.boolean(),
});

const reservoir = fc.record({
  gas: fc.constantFrom('water' as const, 'refrigerant' as const),
  capacityMolPerPa: magnitude(1e-9, 1e-4),
  exchangeS: magnitude(1, 20_000),
  startPa: magnitude(1, 3000),
});

/** From a film of 15 µm to a pool of 2 mm. */
const puddle = fc
  .record({
    depthM: magnitude(1.5e-5, 2e-3),
    areaM2: magnitude(1e-4, 0.1),
    evaporationShare: magnitude(1e-3, 1),
    metalConductanceWPerK: zeroOr(magnitude(0.01, 100)),
  })
  .map(({ depthM, ...rest }) => ({ ...rest, waterKg: 1000 * depthM * rest.areaM2 }));

const section = fc.record({
  name: fc.constant('some volume'),
  volumeM3: magnitude(5e-5, 0.05),
  startPa: fc.record({
    air: zeroOr(magnitude(1, 100_000)),
    water: zeroOr(magnitude(0.1, 2000)),
    refrigerant: zeroOr(magnitude(0.1, 50_000)),
  }),
  metalTemperatureK: between(245, 318),
  inflows: fc.array(inflow, { maxLength: 2 }),
  reservoirs: fc.array(reservoir, { maxLength: 2 }),
  puddle: fc.option(puddle, { freq: 3 }),
});

const duct = fc.record({
  diameterM: magnitude(2e-4, 15e-3),
  lengthM: magnitude(0.2, 15),
  count: fc.integer({ min: 1, max: 3 }),
  coreDiameterM: fc.option(magnitude(1e-3, 3e-3)),
  oneWay: fc.boolean(),
  turned: fc.boolean(),
  valved: fc.boolean(),
});

const pump = fc.record({
  displacementM3PerS: magnitude(2e-4, 6e-3),
  ultimatePa: zeroOr(magnitude(0.5, 50)),
  ballastPa: between(0, 400),
  ballastShare: between(0, 0.2),
  stoppedInflowPaM3PerS: zeroOr(magnitude(1e-4, 1)),
  oil: fc.record({
    foulPa: between(0, 300),
    waterMolPerPa: magnitude(1e-4, 1e-2),
    waterStartPa: between(0, 300),
    clearingS: magnitude(5, 2000),
    dryingS: magnitude(5, 20_000),
  }),
  runsWarmerK: between(0, 50),
  warmingS: magnitude(10, 2000),
  coldFactor: between(1, 5),
  batteryS: fc.option(magnitude(10, 2000)),
});

/** One to four sections in a row, some of them bridged once more. */
export const anyRig: fc.Arbitrary<RigSetup> = fc.integer({ min: 1, max: 4 }).chain((count) => {
  const position = fc.nat(count - 1);
  return fc
    .record({
      surroundings,
      sections: fc.array(section, { minLength: count, maxLength: count }),
      row: fc.array(duct, { minLength: count - 1, maxLength: count - 1 }),
      bridge: fc.option(duct),
      pump,
      pumpSection: position,
      nitrogen: fc.option(
        fc.record({ section: position, conductanceM3PerS: magnitude(1e-6, 1e-3) }),
      ),
    })
    .map(({ row, bridge, pumpSection, ...rest }) => {
      const ends = (from: number, to: number, turned: boolean): [number, number] =>
        turned ? [to, from] : [from, to];
      const bridges = bridge && count > 2 ? [bridge] : [];
      const ducts = [...row, ...bridges].map(({ turned, valved, ...shape }, index) => ({
        ...shape,
        between: index < row.length ? ends(index, index + 1, turned) : ends(0, count - 1, turned),
        valve: valved ? `valve ${index}` : null,
      }));
      return rigSetupSchema.parse({
        ...rest,
        pump: { ...rest.pump, section: pumpSection },
        ducts,
        valves: ducts.map((_, index) => ({ name: `valve ${index}`, opening: 1 })),
      });
    });
});

const opening = fc.oneof(fc.constantFrom(0, 1), between(0, 1));

const controls: fc.Arbitrary<Controls> = fc.record({
  pumpOn: fc.boolean(),
  ballastOpen: fc.boolean(),
  openings: fc.record({
    'valve 0': opening,
    'valve 1': opening,
    'valve 2': opening,
    'valve 3': opening,
  }),
  coresOut: fc.boolean(),
  tightened: fc.boolean(),
  nitrogenPa: fc.option(between(1000, 150_000)),
});

/** What is done, and for how long each, s. */
export const anyHands: fc.Arbitrary<(readonly [number, Controls])[]> = fc.array(
  fc.tuple(magnitude(0.05, 400), controls),
  { minLength: 1, maxLength: 5 },
);
