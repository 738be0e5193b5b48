/**
 * Density of the boiling liquid at 20 °C, kg/m³, from the reference equations of state as the open property library
 * CoolProp 8.0.0 has them: what turns a charge into a volume. Blends with the standard's composition.
 */
const KG_PER_M3: ReadonlyMap<string, number> = new Map([
  ['R-22', 1210],
  ['R-32', 981],
  ['R-134a', 1225],
  ['R-290', 500],
  ['R-404A', 1067],
  ['R-407C', 1159],
  ['R-410A', 1083],
  ['R-448A', 1119],
  ['R-454B', 1007],
  ['R-454C', 1064],
  ['R-513A', 1153],
  ['R-600a', 557],
  ['R-717', 610],
  ['R-744', 773],
  ['R-1234yf', 1110],
]);

/** Null where it is not in the list. */
export function liquidKgPerM3(refrigerantNumber: string): number | null {
  return KG_PER_M3.get(refrigerantNumber) ?? null;
}
