'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { defineFormAction } from '@/lib/server/define-action';
import { nudge } from '@/lib/server/queue';
import { BookVisit, CancelVisit, GiveVisit, MoveVisit } from '@/lib/schemas/visits';
import { bookVisit } from '@/lib/services/visits/book-visit';
import { cancelVisit } from '@/lib/services/visits/cancel-visit';
import { giveVisit } from '@/lib/services/visits/give-visit';
import { moveVisit } from '@/lib/services/visits/move-visit';

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
