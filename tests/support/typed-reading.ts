/** A reading that somebody types in, by the bridge's own address for it. */

/** @param url of the bridge */
export function typeInReading(url: string, pressurePa: number): Promise<Response> {
  return fetch(new URL('api/typed-in', url), {
    method: 'POST',
    headers: { 'content-type': 'application/json' },
    body: JSON.stringify({ pressurePa, temperatureC: null }),
  });
}
