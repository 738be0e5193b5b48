/** Requests to a sensor for what was missed, byte for byte (Bluetooth SIG, Record Access Control Point). */
import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type AccessRequest,
  decodeAnswer,
  decodeRequest,
  encodeCount,
  encodeRequest,
  encodeResponse,
  opCodeNumber,
} from '../../../protocol/record-access.ts';

const decoded = (...bytes: number[]) => decodeRequest(Uint8Array.of(...bytes));
const answer = (...bytes: number[]) => decodeAnswer(Uint8Array.of(...bytes));

describe('requests', () => {
  test.each<[AccessRequest, number[]]>([
    [{ opCode: 'abort' }, [3, 0]],
    [{ opCode: 'report', selection: { operator: 'all' } }, [1, 1]],
    [{ opCode: 'count', selection: { operator: 'first' } }, [4, 5]],
    [{ opCode: 'count', selection: { operator: 'last' } }, [4, 6]],
    [{ opCode: 'report', selection: { operator: 'upTo', to: 258 } }, [1, 2, 1, 2, 1, 0, 0]],
    [{ opCode: 'report', selection: { operator: 'from', from: 258 } }, [1, 3, 1, 2, 1, 0, 0]],
    [
      { opCode: 'report', selection: { operator: 'within', from: 1, to: 0x0102_0304 } },
      [1, 4, 1, 1, 0, 0, 0, 4, 3, 2, 1],
    ],
    [
      { opCode: 'count', selection: { operator: 'within', from: 7, to: 7 } },
      [4, 4, 1, 7, 0, 0, 0, 7, 0, 0, 0],
    ],
  ])('%j', (request, bytes) => {
    expect([...encodeRequest(request)]).toEqual(bytes);
    expect(decoded(...bytes)).toEqual({ ok: true, request });
    const within = Uint8Array.of(9, ...bytes, 9).subarray(1, -1);
    expect(decodeRequest(within)).toEqual({ ok: true, request });
  });

  test.each([
    [[], 0, 'opCodeNotSupported'],
    [[0, 0], 0, 'opCodeNotSupported'],
    [[2, 1], 2, 'opCodeNotSupported'],
    [[5, 1], 5, 'opCodeNotSupported'],
    [[6, 1], 6, 'opCodeNotSupported'],
    [[99, 1], 99, 'opCodeNotSupported'],
    [[3, 1], 3, 'invalidOperator'],
    [[3], 3, 'invalidOperand'],
    [[3, 0, 0], 3, 'invalidOperand'],
    [[1], 1, 'invalidOperator'],
    [[1, 0], 1, 'invalidOperator'],
    [[1, 7], 1, 'operatorNotSupported'],
    [[1, 1, 1], 1, 'invalidOperand'],
    [[4, 5, 0], 4, 'invalidOperand'],
    [[4, 6, 0], 4, 'invalidOperand'],
    [[1, 3], 1, 'invalidOperand'],
    [[1, 3, 2], 1, 'operandNotSupported'],
    [[1, 3, 1], 1, 'invalidOperand'],
    [[1, 3, 2, 0, 0, 0, 0], 1, 'operandNotSupported'],
    [[1, 3, 1, 0, 0, 0], 1, 'invalidOperand'],
    [[1, 3, 1, 0, 0, 0, 0, 0], 1, 'invalidOperand'],
    [[1, 4, 1, 0, 0, 0, 0], 1, 'invalidOperand'],
    [[1, 4, 1, 2, 0, 0, 0, 1, 0, 0, 0], 1, 'invalidOperand'],
  ])('%j is refused', (bytes, opCode, outcome) => {
    expect(decoded(...bytes)).toEqual({ ok: false, opCode, outcome });
  });
});

describe('answers', () => {
  test.each([
    [1, 'success', 1],
    [1, 'opCodeNotSupported', 2],
    [1, 'invalidOperator', 3],
    [1, 'operatorNotSupported', 4],
    [1, 'invalidOperand', 5],
    [4, 'noRecords', 6],
    [3, 'abortUnsuccessful', 7],
    [1, 'notCompleted', 8],
    [1, 'operandNotSupported', 9],
  ] as const)('to %d: %s is %d', (to, outcome, code) => {
    const bytes = encodeResponse(to, outcome);
    expect([...bytes]).toEqual([6, 0, to, code]);
    expect(decodeAnswer(bytes)).toMatchObject({ opCode: 'response', outcome });
  });

  test('name the request by its code, as far as it is one', () => {
    const codes = {
      report: 1,
      delete: 2,
      abort: 3,
      count: 4,
      countResponse: 5,
      response: 6,
    } as const;
    expect(answer(6, 0, codes.report, 1)).toMatchObject({ to: 'report' });
    expect(answer(6, 0, codes.delete, 1)).toMatchObject({ to: 'delete' });
    expect(answer(6, 0, codes.abort, 1)).toMatchObject({ to: 'abort' });
    expect(answer(6, 0, codes.count, 1)).toMatchObject({ to: 'count' });
    expect(answer(6, 0, 0, 2)).toMatchObject({ to: null });
    expect(answer(6, 0, 200, 2)).toMatchObject({ to: null });
    expect([...encodeResponse(0x1ff, 'success')]).toEqual([6, 0, 0xff, 1]);
    expect(opCodeNumber('report')).toBe(codes.report);
    expect(opCodeNumber('response')).toBe(codes.response);
  });

  test('a count comes back, whatever it is', () => {
    expect([...encodeCount(0x0102_0304)]).toEqual([5, 0, 4, 3, 2, 1]);
    fc.assert(
      fc.property(fc.nat(0xffff_ffff), (count) => {
        const padded = Uint8Array.of(9, ...encodeCount(count)).subarray(1);
        expect(decodeAnswer(padded)).toEqual({ opCode: 'countResponse', count });
      }),
    );
  });

  test.each([
    [[]],
    [[5, 1, 0, 0, 0, 0]],
    [[5, 0, 0, 0, 0]],
    [[5, 0, 0, 0, 0, 0, 0]],
    [[6, 1, 1, 1]],
    [[6, 0, 1]],
    [[6, 0, 1, 1, 0]],
    [[6, 0, 1, 0]],
    [[6, 0, 1, 10]],
    [[1, 0, 1, 1]],
  ])('%j makes no sense', (bytes) => {
    expect(answer(...bytes)).toBeNull();
  });
});
