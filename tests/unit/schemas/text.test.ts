import { readdirSync } from 'node:fs';
import path from 'node:path';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { z } from 'zod';
import { manyLines, oneLine } from '@/lib/core/wording/plain-text';

/** Kept as typed: they are compared or hashed, never shown or written into a file. */
const AS_TYPED = new Set([
  'NewPassword',
  'NewPerson.password',
  'SetPassword.password',
  'SetUp.password',
  'ChangePassword.password',
  'ChangePassword.current',
  'ProveIt.password',
  'ChoosePassword.password',
]);

const BAD = 'Ann\r\nBcc: x@y.example\u0000\u001b\u2028\u202e\u{1F9CA}\ud800';
const CONTROL = /[\p{Cc}\u2028\u2029\u202a-\u202e\u2066-\u2069\p{Surrogate}]/u;

type Def = Record<string, unknown> & { type: string };
const defOf = (schema: z.ZodType): Def => (schema as unknown as { _zod: { def: Def } })._zod.def;

/** Every string in a schema, with where it stands. */
function* strings(schema: z.ZodType, at: string): Generator<[string, z.ZodType]> {
  const def = defOf(schema);
  // A word for yes or no becomes a boolean.
  if (def.type === 'pipe' && defOf(def.out as z.ZodType).type === 'boolean') return;
  if (def.type === 'string') yield [at, schema];
  for (const key of ['innerType', 'in', 'element', 'valueType', 'left', 'right'] as const)
    if (def[key]) yield* strings(def[key] as z.ZodType, at);
  for (const option of (def.options as z.ZodType[] | undefined) ?? []) yield* strings(option, at);
  for (const [key, value] of Object.entries((def.shape as Record<string, z.ZodType> | undefined) ?? {}))
    yield* strings(value, `${at}.${key}`);
}

const isSchema = (value: unknown): value is z.ZodType => value instanceof z.ZodType;

async function allStrings() {
  const found: [string, z.ZodType][] = [];
  for (const file of readdirSync('lib/schemas', { recursive: true, encoding: 'utf8' }).filter((f) => f.endsWith('.ts'))) {
    const exported = (await import(path.resolve('lib/schemas', file))) as Record<string, unknown>;
    for (const [name, value] of Object.entries(exported)) {
      if (isSchema(value)) found.push(...strings(value, name));
      // Tables of schemas by name, such as the entries a tablet sends.
      else if (value && typeof value === 'object')
        for (const [key, inner] of Object.entries(value)) if (isSchema(inner)) found.push(...strings(inner, `${name}.${key}`));
    }
  }
  return found;
}

describe('text that comes in', () => {
  it('holds no control characters, whichever field it comes through', async () => {
    const found = await allStrings();
    expect(found.length).toBeGreaterThan(80);
    const letThrough = found.filter(([at, schema]) => {
      if (AS_TYPED.has(at)) return false;
      const read = schema.safeParse(BAD);
      return read.success && CONTROL.test(String(read.data).replaceAll('\n', ''));
    });
    expect(letThrough.map(([at]) => at)).toEqual([]);
  });

  it('is otherwise left as it is, and cleaning it twice changes nothing', () => {
    expect(oneLine('Zoë’s Grill — “No. 4”, 東京 🧊')).toBe('Zoë’s Grill — “No. 4”, 東京 🧊');
    expect(manyLines('a\r\nb\rc\u2028d\te')).toBe('a\nb\nc\nd\te');
    fc.assert(
      fc.property(fc.string({ unit: 'binary' }), (s) => {
        for (const clean of [oneLine, manyLines]) expect(clean(clean(s))).toBe(clean(s));
        expect(oneLine(s)).not.toMatch(CONTROL);
      }),
    );
  });
});
