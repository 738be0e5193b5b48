/** Whether an address leads to the computer itself, and so nowhere from another one: pure. */
export function isThisMachine(address: string): boolean {
  const { hostname } = new URL(address);
  // RFC 6761, section 6.3, and RFC 1122, section 3.2.1.3.
  return hostname === 'localhost' || hostname === '[::1]' || hostname.startsWith('127.');
}
