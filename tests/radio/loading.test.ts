/** Which host library is taken, and what is said where none can be. */
import { expect, it } from 'vitest';
import { RadioRig } from '../support/radio-rig.ts';

/** Lets one of the packages fail to load in the radio's process, as where it lacks its binary. */
function failing(request: string, code: string): readonly string[] {
  const script = `
    import Module from 'node:module';
    const load = Module._load;
    Module._load = function (request, ...rest) {
      if (/${request}/.test(request)) {
        throw Object.assign(new Error('made to fail'), { code: '${code}' });
      }
      return load.call(this, request, ...rest);
    };`;
  return ['--import', `data:text/javascript,${encodeURIComponent(script)}`];
}

it.each([
  ['takes the first library where it loads', [], /host library: @abandonware/],
  [
    'takes the second where the first does not load',
    failing('^@abandonware.bluetooth', 'MODULE_NOT_FOUND'),
    /host library: @stoprocent/,
  ],
])('%s', async (_, execArguments, expected) => {
  const rig = await RadioRig.create({ execArguments });
  try {
    rig.start();
    await rig.ear.phase('searching');
    expect(rig.ear.log.join('\n')).toMatch(expected);
  } finally {
    await rig.close();
  }
});

it.each([
  ['neither loads', 'no_radio_library', failing('bluetooth-hci-socket$', 'MODULE_NOT_FOUND'), {}],
  [
    'the kernel has no Bluetooth',
    'no_bluetooth',
    failing('^@abandonware.bluetooth', 'EAFNOSUPPORT'),
    {},
  ],
  ['an unknown one is asked for', 'no_radio_library', [], { library: 'a typing error' }],
] as const)('says so where %s', async (_, problem, execArguments, options) => {
  const rig = await RadioRig.create({ execArguments, ...options });
  try {
    rig.start();
    await rig.ear.phase('unavailable', problem);
    // It looks again and again, and the screen sees none of that.
    await rig.ear.until('another look', () => looks(rig) >= 2);
    expect(rig.ear.states.map(({ phase }) => phase)).toEqual(['starting', 'unavailable']);
  } finally {
    await rig.close();
  }
});

function looks({ ear }: RadioRig): number {
  return ear.log.filter((text) => text.includes('the radio ended')).length;
}
