/**
 * Copper tube for refrigeration lines in its standard sizes, and what a metre of it holds.
 *
 * ASTM B280 (air-conditioning and refrigeration service): actual outside diameter and wall, annealed coils (A) and
 * drawn straight lengths (D), up to 1 3/8 inch as the Engineering ToolBox restates the standard's table; larger ones
 * from memory. EN 12735-1 (tubes for piping systems): usual sizes of its table 4, from memory. The standards
 * themselves have not been read: a tube that is at hand is better measured.
 */

/** Who has seen it: `second_hand`, where another restates it; `memory`: look it up before much rests on it. */
type Evidence = 'second_hand' | 'memory';

export interface TubeSize {
  /** As it is ordered: '3/8 in', '12 × 1 mm'. */
  readonly name: string;
  readonly standard: 'ASTM B280' | 'EN 12735-1';
  /** Annealed coil or drawn straight length, where both exist with walls of their own. */
  readonly temper: 'annealed' | 'drawn' | null;
  readonly outerDiameterM: number;
  readonly wallM: number;
  readonly evidence: Evidence;
}

export interface TubeBore {
  readonly outerDiameterM: number;
  readonly wallM: number;
}

const INCH_M = 25.4e-3;

export const TUBE_SIZES: readonly TubeSize[] = [
  inch('1/4', 'annealed', 0.25, 0.03),
  inch('5/16', 'annealed', 0.312, 0.032),
  inch('3/8', 'annealed', 0.375, 0.032),
  inch('3/8', 'drawn', 0.375, 0.03),
  inch('1/2', 'annealed', 0.5, 0.032),
  inch('1/2', 'drawn', 0.5, 0.035),
  inch('5/8', 'annealed', 0.625, 0.035),
  inch('5/8', 'drawn', 0.625, 0.04),
  inch('3/4', 'annealed', 0.75, 0.035),
  inch('3/4', 'drawn', 0.75, 0.042),
  inch('7/8', null, 0.875, 0.045),
  inch('1 1/8', null, 1.125, 0.05),
  inch('1 3/8', null, 1.375, 0.055),
  inch('1 5/8', null, 1.625, 0.06, 'memory'),
  inch('2 1/8', null, 2.125, 0.07, 'memory'),
  inch('2 5/8', null, 2.625, 0.08, 'memory'),
  metric(6, 1),
  metric(8, 1),
  metric(10, 1),
  metric(12, 1),
  metric(15, 1),
  metric(16, 1),
  metric(18, 1),
  metric(22, 1),
  metric(28, 1.5),
  metric(35, 1.5),
  metric(42, 1.5),
  metric(54, 2),
];

function inch(
  nominal: string,
  temper: TubeSize['temper'],
  outerInch: number,
  wallInch: number,
  evidence: Evidence = 'second_hand',
): TubeSize {
  return {
    name: `${nominal} in`,
    standard: 'ASTM B280',
    temper,
    outerDiameterM: outerInch * INCH_M,
    wallM: wallInch * INCH_M,
    evidence,
  };
}

function metric(outerMm: number, wallMm: number): TubeSize {
  return {
    name: `${outerMm} × ${wallMm} mm`,
    standard: 'EN 12735-1',
    temper: null,
    outerDiameterM: outerMm / 1000,
    wallM: wallMm / 1000,
    evidence: 'memory',
  };
}

export function boreM({ outerDiameterM, wallM }: TubeBore): number {
  return outerDiameterM - 2 * wallM;
}

/** What a metre of it holds, m³/m: the area of its bore, m². */
export function volumePerMetreM3({ outerDiameterM, wallM }: TubeBore): number {
  return (Math.PI / 4) * boreM({ outerDiameterM, wallM }) ** 2;
}
