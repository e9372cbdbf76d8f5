import 'server-only';
import { parseWithZod } from '@conform-to/zod/v4';
import type { SubmissionResult } from '@conform-to/react';
import { unstable_rethrow } from 'next/navigation';
import type { z } from 'zod';
import type { Permission } from '../../core/people/access';
import { asTyped } from '../../schemas/values/as-typed';
import { enter, enterPublic, explain, type Context, type PublicContext } from './guard';

export type FormState<R> = { reply: SubmissionResult<string[]>; data?: R; code?: string } | undefined;
export type CallResult<R> = { ok: true; data: R } | { ok: false; code: string; message: string; field?: string };

type Handler<C, S extends z.ZodType, R> = (ctx: C & { input: z.output<S> }) => Promise<R>;

const open = (permission: Permission | 'public') => (permission === 'public' ? enterPublic() : enter(permission, 'finish'));

/** A form's action for `useActionState`: validated, guarded; an error goes beside its field and nothing typed is lost. */
export function defineFormAction<S extends z.ZodType, R>(
  permission: 'public',
  schema: S,
  handler: Handler<PublicContext, S, R>,
): (state: FormState<R>, form: FormData) => Promise<FormState<R>>;
export function defineFormAction<S extends z.ZodType, R>(
  permission: Permission,
  schema: S,
  handler: Handler<Context, S, R>,
): (state: FormState<R>, form: FormData) => Promise<FormState<R>>;
export function defineFormAction<S extends z.ZodType, R>(permission: Permission | 'public', schema: S, handler: Handler<never, S, R>) {
  const typed = asTyped(schema);
  return async (_state: FormState<R>, form: FormData): Promise<FormState<R>> => {
    const submission = parseWithZod(form, { schema: typed, disableAutoCoercion: true });
    try {
      const ctx = await open(permission);
      if (submission.status !== 'success') return { reply: submission.reply() };
      const data = await handler({ ...ctx, input: submission.value } as never);
      return { reply: submission.reply(), data };
    } catch (e) {
      unstable_rethrow(e);
      const explained = explain(e);
      const reply = submission.reply(
        explained.field ? { fieldErrors: { [explained.field]: [explained.message] } } : { formErrors: [explained.message] },
      );
      return { reply, code: explained.code };
    }
  };
}

/** An action called with a value instead of a form. */
export function defineCall<S extends z.ZodType, R>(permission: Permission, schema: S, handler: Handler<Context, S, R>) {
  return async (input: z.input<S>): Promise<CallResult<R>> => {
    try {
      const ctx = await enter(permission, 'finish');
      const parsed = schema.safeParse(input);
      if (!parsed.success) {
        const first = parsed.error.issues[0];
        return { ok: false, code: 'invalid', message: first?.message ?? 'Check what was entered.', field: first?.path.join('.') };
      }
      return { ok: true, data: await handler({ ...ctx, input: parsed.data } as never) };
    } catch (e) {
      unstable_rethrow(e);
      return { ok: false, ...explain(e) };
    }
  };
}
