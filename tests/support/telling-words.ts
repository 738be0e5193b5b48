/** Would give the cause away to somebody who reads a card, or the names of the files. */
export const TELLING =
  /leak|tight|\bwet\b|\bdry|moist|water|\brain|damp|flood|\bic[ey]|frost|frozen|freez|snow|humid|crack|loose|flare|\boil|ballast|batter|radio|signal|gasket|worn|dirty|foul|faulty|defect|narrow|thin\b|cores? in|shut off|charged|refrigerant|\bslow|\bsun\b/iu;
