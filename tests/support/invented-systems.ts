/** Invented systems, described as a technician enters them, and as the full simulator has them. */
import type { Join, RigSection, Tube, Vessel } from '../../protocol/rig-facts.ts';
import { boreM, TUBE_SIZES, volumePerMetreM3 } from '../../protocol/tube-sizes.ts';
import { DEFAULT_SHEET, type Sheet } from '../../protocol/sheet.ts';
import type { DuctSetup, RigSetup } from '../../simulators/physics/rig-setup.ts';
import { CORE_OPENING_M } from '../../web/plan/core-opening.ts';
import { HOSE, IDEAL_PUMP, smallRig, smallSection } from './small-rig.ts';

interface Branch {
  readonly size: string;
  readonly lengthM: number;
  /** Of the coil at its end, L. */
  readonly coilL: number;
}

interface Invented {
  readonly name: string;
  /** Lines from the hose to the branches, or to the one coil. */
  readonly main: Branch;
  /** What hangs on the far end of the main lines. */
  readonly branches: readonly Branch[];
  /** At the hose: an outdoor unit that is open as well, L. */
  readonly outdoorL: number;
  readonly hose: { readonly boreMm: number; readonly lengthM: number; readonly count: number };
  readonly coreIn: boolean;
  readonly pumpLPerMin: number;
}

const SPLIT = { branches: [], outdoorL: 0, coreIn: false, pumpLPerMin: 113 };
const HOSE_3_8 = { boreMm: 9.5, lengthM: 1.5, count: 1 };
const HOSE_1_2 = { boreMm: 12.7, lengthM: 1.5, count: 1 };

/** From a room's split to a floor's many coils. */
export const INVENTED: readonly Invented[] = [
  { ...SPLIT, name: 'a room', main: line('3/8', 5, 0.8), hose: HOSE_3_8 },
  { ...SPLIT, name: 'a room, long and thin', main: line('1/4', 25, 0.9), hose: HOSE_3_8 },
  {
    ...SPLIT,
    name: 'a room, thin hose',
    main: line('3/8', 8, 0.8),
    hose: { ...HOSE_3_8, boreMm: 6.35 },
  },
  { ...SPLIT, name: 'a room, cores in', main: line('1/2', 8, 1), hose: HOSE_3_8, coreIn: true },
  { ...SPLIT, name: 'a shop', main: line('5/8', 15, 2.2), outdoorL: 4, hose: HOSE_3_8 },
  {
    ...SPLIT,
    name: 'a shop, large hose',
    main: line('5/8', 30, 2.5),
    hose: HOSE_1_2,
    pumpLPerMin: 170,
  },
  { ...SPLIT, name: 'a hall, thirty metres of 3/8', main: line('3/8', 30, 3), hose: HOSE_1_2 },
  {
    ...SPLIT,
    name: 'two rooms',
    main: line('5/8', 12, 0.3),
    branches: [line('3/8', 6, 0.7), line('3/8', 14, 0.7)],
    hose: HOSE_3_8,
  },
  {
    ...SPLIT,
    name: 'a floor',
    main: line('7/8', 25, 0.5),
    branches: [line('1/2', 8, 1.2), line('1/2', 12, 1.2), line('1/2', 20, 1.2)],
    hose: { ...HOSE_1_2, count: 2 },
    pumpLPerMin: 280,
  },
  {
    ...SPLIT,
    name: 'a floor with its outdoor unit',
    main: line('1 1/8', 40, 1),
    branches: [line('5/8', 15, 2), line('1/2', 25, 1.5)],
    outdoorL: 18,
    hose: HOSE_1_2,
    pumpLPerMin: 225,
  },
];

function line(size: string, lengthM: number, coilL: number): Branch {
  return { size, lengthM, coilL };
}

export function tubeOf(size: string) {
  const found = TUBE_SIZES.find(({ name, temper }) => name === `${size} in` && temper !== 'drawn');
  if (found === undefined) throw new Error(`no tube of ${size} inch`);
  return { outerDiameterM: found.outerDiameterM, wallM: found.wallM };
}

/** As it is entered; the volume is that of its parts. */
export function sheetOfInvented(system: Invented): Sheet {
  const runs = [system.main, ...system.branches];
  const names = runs.map((_, at) => (at === 0 ? 'main' : `branch ${at}`));
  const inOrder = names.map((name, at) => ({ name, run: runs[at] ?? system.main }));
  const tubes = inOrder.map(({ name, run }): Tube => ({
    role: 'gas',
    ...tubeOf(run.size),
    lengthM: run.lengthM,
    section: name,
  }));
  const vessels = inOrder.map(({ name, run }): Vessel => ({
    kind: 'indoor_coil',
    size: { by: 'volume', volumeM3: run.coilL / 1000 },
    section: name,
  }));
  const sections = inOrder.map(({ name }, at): RigSection => ({
    name,
    volumeM3: null,
    hoseHere: at === 0,
  }));
  const joins = names
    .slice(1)
    .map((name): Join => ({ kind: 'branch_valve', between: ['main', name], state: 'open' }));
  const outdoorM3 = system.outdoorL / 1000;
  const outdoor = { name: 'outdoor', volumeM3: outdoorM3, hoseHere: false };
  return {
    ...DEFAULT_SHEET,
    volumeM3: wholeM3(system),
    pumpDisplacementM3PerS: system.pumpLPerMin / 60_000,
    pumpUltimatePa: 3,
    hoseBoreM: system.hose.boreMm / 1000,
    hoseLengthM: system.hose.lengthM,
    hoseCount: system.hose.count,
    core: system.coreIn ? 'in' : 'out',
    tubes,
    vessels,
    sections: outdoorM3 > 0 ? [...sections, outdoor] : sections,
    joins:
      outdoorM3 > 0
        ? [...joins, { kind: 'service_valve', between: ['main', 'outdoor'], state: 'open' }]
        : joins,
  };
}

function wholeM3({ main, branches, outdoorL }: Invented): number {
  return [main, ...branches].reduce(
    (total, { size, lengthM, coilL }) =>
      total + volumePerMetreM3(tubeOf(size)) * lengthM + coilL / 1000,
    outdoorL / 1000,
  );
}

/** Pieces that each line is cut into. */
const PIECES = 5;

/** Each line as a row of small volumes, with the coils at their ends. */
export function distributed(system: Invented): {
  readonly setup: RigSetup;
  readonly ends: readonly number[];
} {
  // Hoses, the system's end of the hose, and then the lines piece by piece.
  const volumes = [Number.NaN, Math.max(system.outdoorL / 1000, 2e-5)];
  const ducts: DuctSetup[] = [
    {
      ...HOSE,
      between: [1, 0],
      diameterM: system.hose.boreMm / 1000,
      lengthM: system.hose.lengthM,
      count: system.hose.count,
      coreDiameterM: system.coreIn ? CORE_OPENING_M : null,
    },
  ];
  const lay = (from: number, { size, lengthM, coilL }: Branch): number => {
    const tube = tubeOf(size);
    let last = from;
    for (let piece = 0; piece < PIECES; piece += 1) {
      volumes.push((volumePerMetreM3(tube) * lengthM) / PIECES);
      const next = volumes.length - 1;
      ducts.push({
        ...HOSE,
        between: [last, next],
        diameterM: boreM(tube),
        lengthM: lengthM / PIECES,
      });
      last = next;
    }
    volumes[last] = (volumes[last] ?? 0) + coilL / 1000;
    return last;
  };
  const end = lay(1, system.main);
  const ends = system.branches.map((branch) => lay(end, branch));
  const { boreMm, lengthM, count } = system.hose;
  volumes[0] = count * (Math.PI / 4) * (boreMm / 1000) ** 2 * lengthM;
  return {
    setup: {
      ...smallRig(),
      sections: volumes.map((volumeM3) => smallSection({ volumeM3, airPa: 101_325 })),
      ducts,
      pump: {
        ...IDEAL_PUMP,
        section: 0,
        displacementM3PerS: system.pumpLPerMin / 60_000,
        ultimatePa: 3,
      },
    },
    ends: [end, ...ends],
  };
}
