import { defineRoute } from '@/lib/server/doors/define-route';

export const dynamic = 'force-dynamic';

/** The process answers. Says nothing of the database: one that is away is no reason to kill the app. */
export const GET = defineRoute('public', () => Promise.resolve(Response.json({ ok: true })));
