'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { defineFormAction } from '@/lib/server/define-action';
import { nudge } from '@/lib/server/queue';
import { BookVisit, CancelVisit, GiveVisit, MoveVisit } from '@/lib/schemas/visits';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { giveVisit } from '@/lib/features/visits/verbs/give-visit';
import { moveVisit } from '@/lib/features/visits/verbs/move-visit';

export const book = defineFormAction('book:visit', BookVisit, async (ctx) => {
  await bookVisit(ctx, ctx.input);
  await nudge('mail');
  redirect(`/week?day=${ctx.input.date}`);
});

export const move = defineFormAction('book:visit', MoveVisit, async (ctx) => {
  await moveVisit(ctx, ctx.input);
  await nudge('mail');
  redirect(`/week?day=${ctx.input.date}`);
});

export const give = defineFormAction('book:visit', GiveVisit, async (ctx) => {
  await giveVisit(ctx, ctx.input);
  refresh();
});

export const cancel = defineFormAction('book:visit', CancelVisit, async (ctx) => {
  await cancelVisit(ctx, ctx.input);
  await nudge('mail');
  redirect('/week');
});
