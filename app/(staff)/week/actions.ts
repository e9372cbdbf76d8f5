'use server';

import { refresh } from 'next/cache';
import { redirect } from 'next/navigation';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';
import { BookVisit, CancelVisit, ChangeVisit, GiveVisit, MoveVisit, RestoreVisit } from '@/lib/schemas/visits/visits';
import { bookVisit } from '@/lib/features/visits/verbs/book-visit';
import { cancelVisit } from '@/lib/features/visits/verbs/cancel-visit';
import { changeVisit } from '@/lib/features/visits/verbs/change-visit';
import { restoreVisit } from '@/lib/features/visits/verbs/restore-visit';
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
  // Its page can bring it back.
  redirect(`/week/${ctx.input.visitId}`);
});

export const change = defineFormAction('book:visit', ChangeVisit, async (ctx) => {
  await changeVisit(ctx, ctx.input);
  await nudge('mail');
  refresh();
});

export const restore = defineFormAction('book:visit', RestoreVisit, async (ctx) => {
  const lost = await restoreVisit(ctx, ctx.input);
  await nudge('mail');
  refresh();
  return lost;
});
