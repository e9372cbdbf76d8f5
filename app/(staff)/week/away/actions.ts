'use server';

import { revalidatePath } from 'next/cache';
import { SendAway, UndoAway } from '@/lib/schemas/people/absences';
import { defineCall } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';
import { sendAway } from '@/lib/features/absences/verbs/send-away';
import { undoAway } from '@/lib/features/absences/verbs/undo-away';

export const putAway = defineCall('book:visit', SendAway, async (ctx) => {
  const done = await sendAway(ctx, ctx.input);
  await nudge('mail');
  revalidatePath('/week/away');
  return done;
});

export const takeAwayBack = defineCall('book:visit', UndoAway, async (ctx) => {
  const done = await undoAway(ctx, ctx.input.absenceId);
  await nudge('mail');
  // The list stays as it is: what could not go back is said in it.
  return done;
});
