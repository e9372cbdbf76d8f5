'use server';

import { refresh } from 'next/cache';
import { DecideMessage } from '@/lib/schemas/messages';
import { defineFormAction } from '@/lib/server/define-action';
import { nudge } from '@/lib/server/queue';
import { decideMessage } from '@/lib/features/mail/verbs/decide-message';

export const decide = defineFormAction('book:visit', DecideMessage, async (ctx) => {
  await decideMessage(ctx, ctx.input);
  if (ctx.input.decision === 'again') await nudge('mail');
  refresh();
});
