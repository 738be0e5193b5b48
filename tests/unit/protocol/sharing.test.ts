/** Roles, codes and names of other screens. */
import { describe, expect, test } from 'vitest';
import {
  mayDo,
  newPairingSchema,
  pairingSchema,
  pairWishSchema,
  plainTypedCode,
  type Role,
  sharingStateSchema,
  thisScreenSchema,
  TYPED_CODE_LENGTH,
  TYPED_CODE_SIGNS,
} from '../../../protocol/sharing.ts';
import { expectExactShape, expectWords } from '../../support/exact-shape.ts';

test('each role may do what the one before it may, and nothing beyond its own', () => {
  const order: readonly Role[] = ['watch', 'assist', 'owner'];
  for (const [at, role] of order.entries()) {
    for (const [needed, leastRole] of order.entries()) {
      expect(mayDo(role, leastRole), `${role} where ${leastRole} is needed`).toBe(at >= needed);
    }
  }
});

describe('a code for typing', () => {
  test('is the same however it is typed', () => {
    expect(plainTypedCode('abcd-2345')).toBe('ABCD2345');
    expect(plainTypedCode(' ab cd - 23 45\n')).toBe('ABCD2345');
  });

  test('has 32 signs, so 40 bits, and none that is taken for another one', () => {
    expect(new Set(TYPED_CODE_SIGNS).size).toBe(32);
    expect(TYPED_CODE_LENGTH * Math.log2(TYPED_CODE_SIGNS.length)).toBe(40);
    expect(TYPED_CODE_SIGNS).not.toMatch(/[01IO]/u);
    expect(plainTypedCode(TYPED_CODE_SIGNS)).toBe(TYPED_CODE_SIGNS);
  });
});

describe('shapes', () => {
  const screen = {
    id: 2,
    name: 'A',
    role: 'watch',
    pairedAtMs: 5,
    lastSeenAtMs: 6,
    connected: true,
  };
  test.each([
    ['this screen', thisScreenSchema, { role: 'owner', name: 'A' }],
    ['a wish for a code', newPairingSchema, { role: 'assist' }],
    ['a code', pairingSchema, { role: 'watch', secret: 'a', typed: 'b', expiresAtMs: 5 }],
    ['a wish to be let in', pairWishSchema, { code: 'a', name: 'Phone' }],
    ['sharing that is off', sharingStateSchema, { on: false }],
    [
      'sharing',
      sharingStateSchema,
      { on: true, addresses: ['https://a'], fingerprint: 'b', screens: [screen] },
    ],
  ])('%s', (_what, schema, example) => {
    expectExactShape(schema, example);
  });

  test('nobody is paired as the owner', () => {
    expectWords(['watch', 'assist'], (role) => newPairingSchema.safeParse({ role }));
    expect(newPairingSchema.safeParse({ role: 'owner' }).success).toBe(false);
  });
});

describe('a screen’s name', () => {
  const named = (name: string) => pairWishSchema.safeParse({ code: 'a', name });

  test.each(['A', 'Phone of Ana', '手机 3', 'a'.repeat(60), '  Phone  '])('may be %j', (name) => {
    expect(named(name).data?.name).toBe(name.trim());
  });

  test.each(['', '   ', 'a'.repeat(61), 'a\u0007b', 'a\nb', 'a\u202Eb', 'a\u200Bb'])(
    'may not be %j',
    (name) => {
      expect(named(name).success).toBe(false);
    },
  );

  test('that cannot be seen is told what it may have', () => {
    expect(named('a\u202Eb').error?.issues[0]?.message).toMatch(/that can be seen/u);
  });

  test('comes with a code of some length', () => {
    for (const code of ['', 'a'.repeat(65)]) {
      expect(pairWishSchema.safeParse({ code, name: 'A' }).success).toBe(false);
    }
    expect(pairWishSchema.safeParse({ code: 'a'.repeat(64), name: 'A' }).success).toBe(true);
  });
});
