/**
 * Opening of a valve core that was left in, m: the ring around its pin, as a round hole of the same
 * area (3 mm²). Common practice, no source; cores differ by half as much again.
 */
export const CORE_OPENING_M = 2e-3;
