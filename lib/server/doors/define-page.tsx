import 'server-only';
import { headers } from 'next/headers';
import { forbidden, redirect } from 'next/navigation';
import type { ReactNode } from 'react';
import type { Permission } from '../../core/people/access';
import { isAppError } from '../../core/errors';
import { askedFirst, enter, enterPublic, signInAddress, type Context, type PublicContext } from './guard';
import { ADDRESS } from '../process/requests';

type Query = Record<string, string | undefined>;
type PageProps = { params: Promise<Record<string, string>>; searchParams: Promise<Record<string, string | string[] | undefined>> };
type PageArgs<C> = C & { params: Record<string, string>; query: Query };

async function args(props: PageProps) {
  const query: Query = {};
  for (const [k, v] of Object.entries(await props.searchParams)) query[k] = Array.isArray(v) ? v[0] : v;
  return { params: await props.params, query };
}

/** A page behind a permission, or 'public'. Signed out goes to sign-in; not allowed gets a plain page. */
export function definePage(
  permission: 'public',
  render: (ctx: PageArgs<PublicContext>) => Promise<ReactNode>,
): (props: PageProps) => Promise<ReactNode>;
export function definePage(
  permission: Permission,
  render: (ctx: PageArgs<Context>) => Promise<ReactNode>,
): (props: PageProps) => Promise<ReactNode>;
export function definePage(permission: Permission | 'public', render: (ctx: never) => Promise<ReactNode>) {
  return async function Page(props: PageProps) {
    const a = await args(props);
    if (permission === 'public') return render({ ...(await enterPublic()), ...a } as never);
    let ctx: Context;
    try {
      ctx = await enter(permission);
    } catch (e) {
      if (isAppError(e) && e.code === 'not_signed_in') redirect(signInAddress((await headers()).get(ADDRESS)));
      const first = askedFirst(e, (await headers()).get(ADDRESS) ?? '/');
      if (first) redirect(first);
      if (isAppError(e) && e.code === 'not_allowed') forbidden();
      throw e;
    }
    return render({ ...ctx, ...a } as never);
  };
}
