/**
 * Values that a schema allows, made of its JSON Schema (so of a zod schema, or of the API's own document). Of a
 * pattern or a format it makes only what it knows: what comes of others is refused, which is one more case.
 */
import { z } from 'zod';
import type { SeededRandom } from '../../../simulators/physics/seeded-random.ts';

export type Json =
  string | number | boolean | null | readonly Json[] | { readonly [name: string]: Json };

const partSchema = z.looseObject({
  $ref: z.string().optional(),
  type: z.union([z.string(), z.array(z.string())]).optional(),
  enum: z.array(z.json()).optional(),
  const: z.json().optional(),
  anyOf: z.array(z.unknown()).optional(),
  oneOf: z.array(z.unknown()).optional(),
  properties: z.record(z.string(), z.unknown()).optional(),
  required: z.array(z.string()).optional(),
  propertyNames: z.unknown().optional(),
  additionalProperties: z.unknown().optional(),
  items: z.unknown().optional(),
  minItems: z.number().optional(),
  maxItems: z.number().optional(),
  minimum: z.number().optional(),
  maximum: z.number().optional(),
  minLength: z.number().optional(),
  maxLength: z.number().optional(),
  pattern: z.string().optional(),
  format: z.string().optional(),
});
type Part = z.infer<typeof partSchema>;

const LETTERS = 'abcXYZ019 .-_/é漢';

export class SchemaValues {
  readonly #random: SeededRandom;
  readonly #parts = new WeakMap<object, Part>();

  constructor(random: SeededRandom) {
    this.#random = random;
  }

  below(limit: number): number {
    return Math.floor(this.#random.uniform() * limit);
  }

  of<T>(list: readonly T[]): T | undefined {
    return list[this.below(list.length)];
  }

  value(schema: unknown): Json {
    const part = this.#part(schema);
    if (part.const !== undefined) return part.const;
    if (part.enum !== undefined) return this.of(part.enum) ?? null;
    const choices = part.anyOf ?? part.oneOf;
    if (choices !== undefined) return this.value(this.of(choices));
    const type = Array.isArray(part.type) ? this.of(part.type) : part.type;
    switch (type) {
      case 'object':
        return this.#object(part);
      case 'array': {
        const least = part.minItems ?? 0;
        const count = least + this.below(Math.min((part.maxItems ?? least + 3) - least, 3) + 1);
        return Array.from({ length: count }, () => this.value(part.items));
      }
      case 'string':
        return this.#string(part);
      case 'integer':
        return Math.floor(this.#number(part));
      case 'number':
        return this.#number(part);
      case 'boolean':
        return this.#random.uniform() < 0.5;
      case undefined:
      default:
        return null;
    }
  }

  #part(schema: unknown): Part {
    if (typeof schema !== 'object' || schema === null) return {};
    const present = this.#parts.get(schema);
    if (present !== undefined) return present;
    const part = partSchema.parse(schema);
    this.#parts.set(schema, part);
    return part;
  }

  #object({ properties = {}, required = [], propertyNames, additionalProperties }: Part): Json {
    const made: Record<string, Json> = {};
    for (const [name, schema] of Object.entries(properties)) {
      if (required.includes(name) || this.#random.uniform() < 0.3) made[name] = this.value(schema);
    }
    if (propertyNames !== undefined && typeof additionalProperties === 'object') {
      const name = this.value(propertyNames);
      if (typeof name === 'string') made[name] = this.value(additionalProperties);
    }
    return made;
  }

  #string({ minLength = 0, maxLength = 20, format, pattern }: Part): string {
    if (format === 'date' || pattern?.includes('\\d{4}') === true) return '2026-03-01';
    const length = Math.max(minLength, this.below(Math.min(maxLength, 20) + 1));
    return Array.from({ length }, () => LETTERS.charAt(this.below(LETTERS.length))).join('');
  }

  #number({ minimum = -1000, maximum = Math.max(minimum, 0) + 1000 }: Part): number {
    const least = Math.max(minimum, -1e9);
    return least + this.#random.uniform() * (Math.min(maximum, least + 1e4) - least);
  }
}
