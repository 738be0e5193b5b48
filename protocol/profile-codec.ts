/** Encodes and decodes any characteristic from its declaration in `profile.ts`. Little-endian. */
import type { Field } from './profile.ts';

/** The value of one declared field. */
type FieldValue<F> = F extends { type: 'flags8'; bits: readonly (infer Bit extends string)[] }
  ? Readonly<Record<Bit, boolean>>
  : F extends { type: 'choice8'; choices: readonly (infer Choice extends string)[] }
    ? Choice
    : F extends { notKnown: number }
      ? number | null
      : number;

/** The value of a whole characteristic: a property for each field. */
export type Values<Fields extends readonly Field[]> = {
  readonly [F in Fields[number] as F['name']]: FieldValue<F>;
};

/** Why bytes could not be read: never a guessed value. */
export interface Unreadable {
  readonly ok: false;
  readonly reason: 'length' | 'reserved';
  /** What was expected and what was there. */
  readonly detail: string;
}
export type Decoded<Fields extends readonly Field[]> =
  { readonly ok: true; readonly values: Values<Fields> } | Unreadable;

type AnyValue = number | string | null | Readonly<Record<string, boolean>>;

const SIZE: Readonly<Record<Field['type'], number>> = {
  flags8: 1,
  choice8: 1,
  uint8: 1,
  uint16: 2,
  uint32: 4,
  sint16: 2,
};

/** Length in bytes of a characteristic with these fields. */
export function encodedLength(fields: readonly Field[]): number {
  return fields.reduce((total, field) => total + SIZE[field.type], 0);
}

/**
 * Reads the bytes of a characteristic. Bytes that follow the declared ones are those of a later
 * minor version and are ignored; too few, or a value without meaning, is refused.
 */
export function decode<const Fields extends readonly Field[]>(
  fields: Fields,
  bytes: Uint8Array,
): Decoded<Fields> {
  const length = encodedLength(fields);
  if (bytes.length < length) {
    return {
      ok: false,
      reason: 'length',
      detail: `${bytes.length} bytes where ${length} are needed`,
    };
  }
  const view = new DataView(bytes.buffer, bytes.byteOffset, bytes.byteLength);
  const values: Record<string, AnyValue> = {};
  let offset = 0;
  for (const field of fields) {
    const raw = readRaw(view, offset, field.type);
    const value = fromRaw(field, raw);
    if (value === undefined) {
      return {
        ok: false,
        reason: 'reserved',
        detail: `${field.name} is ${raw}, which has no meaning`,
      };
    }
    values[field.name] = value;
    offset += SIZE[field.type];
  }
  if (!isComplete(fields, values)) throw new Error('a declared field was not read');
  return { ok: true, values };
}

/**
 * Writes the bytes of a characteristic.
 * @throws RangeError where a value does not fit its field.
 */
export function encode<const Fields extends readonly Field[]>(
  fields: Fields,
  values: Values<Fields>,
): Uint8Array {
  const byName = new Map<string, AnyValue>(Object.entries(values));
  const bytes = new Uint8Array(encodedLength(fields));
  const view = new DataView(bytes.buffer);
  let offset = 0;
  for (const field of fields) {
    writeRaw(view, offset, field.type, toRaw(field, byName.get(field.name)));
    offset += SIZE[field.type];
  }
  return bytes;
}

function isComplete<Fields extends readonly Field[]>(
  fields: Fields,
  values: object,
): values is Values<Fields> {
  return fields.every((field) => Object.hasOwn(values, field.name));
}

/** The value behind the raw number, or undefined where that number has no meaning. */
function fromRaw(field: Field, raw: number): AnyValue | undefined {
  switch (field.type) {
    case 'flags8':
      return Object.fromEntries(field.bits.map((bit, place) => [bit, (raw & (1 << place)) !== 0]));
    case 'choice8':
      return field.choices[raw];
    case 'uint8':
    case 'uint16':
    case 'uint32':
    case 'sint16':
      if (raw === field.notKnown) return null;
      if (field.max !== undefined && raw > field.max) return undefined;
      return raw / (field.countsPerUnit ?? 1);
  }
}

function toRaw(field: Field, value: AnyValue | undefined): number {
  switch (field.type) {
    case 'flags8': {
      if (value === null || typeof value !== 'object') throw misfit(field, value);
      return field.bits.reduce((raw, bit, place) => (value[bit] ? raw | (1 << place) : raw), 0);
    }
    case 'choice8': {
      const raw = field.choices.findIndex((choice) => choice === value);
      if (raw < 0) throw misfit(field, value);
      return raw;
    }
    case 'uint8':
    case 'uint16':
    case 'uint32':
    case 'sint16': {
      if (value === null && field.notKnown !== undefined) return field.notKnown;
      if (typeof value !== 'number') throw misfit(field, value);
      const raw = Math.round(value * (field.countsPerUnit ?? 1));
      if (!inRange(field.type, raw) || raw === field.notKnown || raw > (field.max ?? raw)) {
        throw misfit(field, value);
      }
      return raw;
    }
  }
}

function misfit(field: Field, value: AnyValue | undefined): RangeError {
  return new RangeError(`${field.name} cannot be ${JSON.stringify(value)} in a ${field.type}`);
}

function inRange(type: Field['type'], raw: number): boolean {
  if (!Number.isFinite(raw)) return false;
  return type === 'sint16'
    ? raw >= -0x8000 && raw <= 0x7fff
    : raw >= 0 && raw < 2 ** (8 * SIZE[type]);
}

function readRaw(view: DataView, offset: number, type: Field['type']): number {
  if (type === 'sint16') return view.getInt16(offset, true);
  if (type === 'uint16') return view.getUint16(offset, true);
  if (type === 'uint32') return view.getUint32(offset, true);
  return view.getUint8(offset);
}

function writeRaw(view: DataView, offset: number, type: Field['type'], raw: number): void {
  if (type === 'sint16') view.setInt16(offset, raw, true);
  else if (type === 'uint16') view.setUint16(offset, raw, true);
  else if (type === 'uint32') view.setUint32(offset, raw, true);
  else view.setUint8(offset, raw);
}
