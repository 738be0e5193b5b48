/** Three places in a row, far – near – hose, and one gas in them over one implicit step. */
export interface Chain {
  readonly lineM3PerS: number;
  readonly hoseM3PerS: number;
  /** What leaves each for each pascal in it (and what it stores), m³/s. */
  readonly out: { far: number; near: number; hose: number };
  /** What comes into each, whatever its pressure, Pa·m³/s. */
  readonly in: { far: number; near: number; hose: number };
}

/** Pressures at which inflow and outflow of each are equal, Pa. */
export function solveChain({ lineM3PerS, hoseM3PerS, out, in: into }: Chain) {
  // Elimination from both ends towards the middle.
  const farOut = out.far + lineM3PerS;
  const hoseOut = out.hose + hoseM3PerS;
  const nearOut = out.near + (lineM3PerS * out.far) / farOut + (hoseM3PerS * out.hose) / hoseOut;
  const near =
    (into.near + (lineM3PerS * into.far) / farOut + (hoseM3PerS * into.hose) / hoseOut) / nearOut;
  return {
    far: (into.far + lineM3PerS * near) / farOut,
    near,
    hose: (into.hose + hoseM3PerS * near) / hoseOut,
  };
}
