/** What is wrong with the command line, in one sentence. */
export class OptionsError extends Error {
  override readonly name = 'OptionsError';
}
