import 'server-only';
import { unstable_rethrow } from 'next/navigation';
import type { Permission } from '../../core/people/access';
import { env } from '../process/env';
import { askedFirst, enter, enterPublic, explain, type Context, type PublicContext } from './guard';

const STATUS: Record<string, number> = {
  not_signed_in: 401,
  not_allowed: 403,
  not_proven: 403,
  step_wanted: 403,
  not_found: 404,
  invalid: 400,
  conflict: 409,
  overlap: 409,
  low_side: 409,
  too_many: 429,
  too_large: 413,
  busy: 503,
  full: 507,
  unexpected: 500,
};

type RouteProps = { params: Promise<Record<string, string>> };
type Args<C> = C & { request: Request; params: Record<string, string> };

/** A route handler behind a permission, or 'public'. Errors come back as JSON with a code. */
export function defineRoute(
  permission: 'public',
  handler: (ctx: Args<PublicContext>) => Promise<Response>,
): (request: Request, props: RouteProps) => Promise<Response>;
export function defineRoute(
  permission: Permission,
  handler: (ctx: Args<Context>) => Promise<Response>,
): (request: Request, props: RouteProps) => Promise<Response>;
export function defineRoute(permission: Permission | 'public', handler: (ctx: never) => Promise<Response>) {
  return async (request: Request, props: RouteProps): Promise<Response> => {
    try {
      const ctx = permission === 'public' ? await enterPublic() : await enter(permission);
      return await handler({ ...ctx, request, params: await props.params } as never);
    } catch (e) {
      unstable_rethrow(e);
      // A file that somebody clicked on: they are asked who they are, and get it then.
      const first = askedFirst(e, new URL(request.url).pathname);
      if (first && request.method === 'GET' && request.headers.get('sec-fetch-mode') === 'navigate')
        return Response.redirect(new URL(first, env().NEXTAUTH_URL), 303);
      const explained = explain(e);
      return Response.json({ error: explained }, { status: STATUS[explained.code] ?? 500 });
    }
  };
}
