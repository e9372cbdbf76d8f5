import { NextResponse, type NextRequest } from 'next/server';
import { officePolicy } from '@/lib/server/answers/content-security-policy';

/** Gives each page a policy with a nonce of its own, which the framework puts on the scripts it writes into the page. */
export function proxy(request: NextRequest): NextResponse {
  const policy = officePolicy(`'nonce-${Buffer.from(crypto.randomUUID()).toString('base64')}'`);
  const headers = new Headers(request.headers);
  headers.set('content-security-policy', policy);
  const response = NextResponse.next({ request: { headers } });
  response.headers.set('content-security-policy', policy);
  // Where the shop has a certificate, a browser that was here once never asks without it again.
  if (process.env.NEXTAUTH_URL?.startsWith('https:')) response.headers.set('strict-transport-security', 'max-age=31536000');
  return response;
}

// What is no page has its policy from next.config.ts, the round's shell from its own route.
export const config = { matcher: '/((?!api/|_next/|serwist/|round$|round-app/).*)' };
