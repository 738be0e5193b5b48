/** Bytes as a person compares them. */

export function hex(bytes: Uint8Array): string {
  if (bytes.length === 0) return 'nothing';
  return Array.from(bytes, (byte) => byte.toString(16).toUpperCase().padStart(2, '0')).join(' ');
}

export function same(one: Uint8Array, other: Uint8Array): boolean {
  return one.length === other.length && one.every((byte, place) => byte === other[place]);
}
