/**
 * Something that several tests look at, worked out in the first of them: what is worked out while a test file is read
 * belongs to no test, and all tests would be asked about a change in it (`npm run mutation`).
 */
export function once<T>(find: () => T): () => T {
  let known: { readonly value: T } | null = null;
  return () => {
    known ??= { value: find() };
    return known.value;
  };
}
