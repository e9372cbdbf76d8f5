import { parseWithZod } from '@conform-to/zod/v4';
import type { z } from 'zod';
import { asTyped } from '@/lib/schemas/values/as-typed';

export type Sent = Record<string, string | string[]>;

/** As a browser sends a form: every field a string, empty ones too. */
export function send<S extends z.ZodType>(schema: S, fields: Sent) {
  const form = new FormData();
  for (const [name, value] of Object.entries(fields)) for (const v of [value].flat()) form.append(name, v);
  const submission = parseWithZod(form, { schema: asTyped(schema), disableAutoCoercion: true });
  return submission.status === 'success'
    ? { value: submission.value as z.output<S>, error: {} }
    : { value: undefined, error: submission.reply().error ?? {} };
}
