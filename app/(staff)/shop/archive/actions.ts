'use server';

import { refresh } from 'next/cache';
import { z } from 'zod';
import { startArchive } from '@/lib/features/archive/verbs/start-archive';
import { defineFormAction } from '@/lib/server/doors/define-action';
import { nudge } from '@/lib/server/process/queue';

export const makeArchive = defineFormAction('export:everything', z.object({}), async (ctx) => {
  await startArchive(ctx);
  await nudge('archive');
  refresh();
});
