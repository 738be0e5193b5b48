/**
 * Requests to and answers from the Record Access Control Point: how a bridge asks a sensor for the
 * readings that it has missed. Little-endian.
 *
 * Source: Bluetooth SIG, GATT Specification Supplement, Record Access Control Point (op codes,
 * operators, response codes). The operand's layout is ours, as that document leaves it to each service.
 */

/** Where the value of an op code is one of these, its meaning is its place. */
const OP_CODES = [
  'reserved',
  'report',
  'delete',
  'abort',
  'count',
  'countResponse',
  'response',
] as const;
export type OpCode = Exclude<(typeof OP_CODES)[number], 'reserved'>;

const OPERATORS = ['null', 'all', 'upTo', 'from', 'within', 'first', 'last'] as const;

/** What a procedure came to, in the order of the codes. */
const OUTCOMES = [
  'reserved',
  'success',
  'opCodeNotSupported',
  'invalidOperator',
  'operatorNotSupported',
  'invalidOperand',
  'noRecords',
  'abortUnsuccessful',
  'notCompleted',
  'operandNotSupported',
] as const;
export type Outcome = Exclude<(typeof OUTCOMES)[number], 'reserved'>;

/** Which readings: by their number since the present boot. Both ends count. */
export type Selection =
  | { readonly operator: 'all' | 'first' | 'last' }
  | { readonly operator: 'from'; readonly from: number }
  | { readonly operator: 'upTo'; readonly to: number }
  | { readonly operator: 'within'; readonly from: number; readonly to: number };

export type AccessRequest =
  | { readonly opCode: 'report' | 'count'; readonly selection: Selection }
  | { readonly opCode: 'abort' };

export type AccessAnswer =
  | { readonly opCode: 'countResponse'; readonly count: number }
  | { readonly opCode: 'response'; readonly to: OpCode | null; readonly outcome: Outcome };

/** Why a request can't be followed: the answer that it gets. */
export interface Refusal {
  readonly ok: false;
  /** As it was received; 0 where nothing was. */
  readonly opCode: number;
  readonly outcome: Outcome;
}

/** The operand says first what the numbers after it stand for; there is one kind. */
const BY_SEQUENCE = 1;

export function encodeRequest(request: AccessRequest): Uint8Array {
  if (request.opCode === 'abort') return Uint8Array.of(OP_CODES.indexOf('abort'), 0);
  const { opCode, selection } = request;
  const head = [OP_CODES.indexOf(opCode), OPERATORS.indexOf(selection.operator)];
  const numbers = boundsOf(selection);
  if (numbers.length === 0) return Uint8Array.from(head);
  const bytes = new Uint8Array(3 + 4 * numbers.length);
  bytes.set([...head, BY_SEQUENCE]);
  const view = new DataView(bytes.buffer);
  for (const [i, number] of numbers.entries()) view.setUint32(3 + 4 * i, number, true);
  return bytes;
}

/** What a sensor is asked, or the answer that such a request gets. */
export function decodeRequest(
  bytes: Uint8Array,
): { readonly ok: true; readonly request: AccessRequest } | Refusal {
  const [code = 0, operatorCode = 0] = bytes;
  const refuse = (outcome: Outcome): Refusal => ({ ok: false, opCode: code, outcome });
  const opCode = OP_CODES[code];
  if (opCode === 'abort') {
    if (operatorCode !== 0) return refuse('invalidOperator');
    return bytes.length === 2 ? { ok: true, request: { opCode } } : refuse('invalidOperand');
  }
  if (opCode !== 'report' && opCode !== 'count') return refuse('opCodeNotSupported');
  const operator = OPERATORS[operatorCode];
  if (operator === 'null') return refuse('invalidOperator');
  if (operator === undefined) return refuse('operatorNotSupported');
  if (operator === 'all' || operator === 'first' || operator === 'last') {
    const isWhole = bytes.length === 2;
    return isWhole
      ? { ok: true, request: { opCode, selection: { operator } } }
      : refuse('invalidOperand');
  }
  const wanted = operator === 'within' ? 11 : 7;
  if (bytes.length >= 3 && bytes[2] !== BY_SEQUENCE) return refuse('operandNotSupported');
  if (bytes.length !== wanted) return refuse('invalidOperand');
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const first = view.getUint32(3, true);
  if (operator === 'from')
    return { ok: true, request: { opCode, selection: { operator, from: first } } };
  if (operator === 'upTo')
    return { ok: true, request: { opCode, selection: { operator, to: first } } };
  const to = view.getUint32(7, true);
  if (to < first) return refuse('invalidOperand');
  return { ok: true, request: { opCode, selection: { operator, from: first, to } } };
}

/** @param toOpCode as it was received, known or not */
export function encodeResponse(toOpCode: number, outcome: Outcome): Uint8Array {
  return Uint8Array.of(OP_CODES.indexOf('response'), 0, toOpCode & 0xff, OUTCOMES.indexOf(outcome));
}

export function opCodeNumber(opCode: OpCode): number {
  return OP_CODES.indexOf(opCode);
}

export function encodeCount(count: number): Uint8Array {
  const bytes = Uint8Array.of(OP_CODES.indexOf('countResponse'), 0, 0, 0, 0, 0);
  new DataView(bytes.buffer).setUint32(2, count, true);
  return bytes;
}

/** What a sensor answered, or null where that makes no sense. */
export function decodeAnswer(bytes: Uint8Array): AccessAnswer | null {
  const [code = 0, operator = 0, third = 0, fourth = 0] = bytes;
  if (operator !== 0) return null;
  if (OP_CODES[code] === 'countResponse') {
    if (bytes.length !== 6) return null;
    const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
    return { opCode: 'countResponse', count: view.getUint32(2, true) };
  }
  if (OP_CODES[code] !== 'response' || bytes.length !== 4) return null;
  const outcome = OUTCOMES[fourth];
  if (outcome === undefined || outcome === 'reserved') return null;
  const to = OP_CODES[third];
  return { opCode: 'response', to: to === undefined || to === 'reserved' ? null : to, outcome };
}

function boundsOf(selection: Selection): number[] {
  switch (selection.operator) {
    case 'all':
    case 'first':
    case 'last':
      return [];
    case 'from':
      return [selection.from];
    case 'upTo':
      return [selection.to];
    case 'within':
      return [selection.from, selection.to];
  }
}
