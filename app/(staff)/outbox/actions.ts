'use server';

import { refresh } from 'next/cache';
import { DecideMessage } from '@/lib/schemas/shop/messages';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';
import { decideMessage } from '@/lib/features/mail/verbs/decide-message';

export const decide = defineFormAction('book:visit', DecideMessage, async (ctx) => {
  await decideMessage(ctx, ctx.input);
  if (ctx.input.decision === 'again') await nudge('mail');
  refresh();
});
