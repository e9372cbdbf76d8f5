import { NextResponse, type NextRequest } from 'next/server';
import { officePolicy } from '@/lib/server/answers/content-security-policy';

/** What the framework takes in of a body (next.config.ts); what is larger would end in an error page without words. */
const MOST_BYTES = 12 * 1024 * 1024;

const tooLarge = () =>
  new NextResponse('That is more than 12 MB, and nothing of it was kept. Go back, split the file, and send it in parts.\n', {
    status: 413,
    headers: { 'content-type': 'text/plain; charset=utf-8', 'content-security-policy': "default-src 'none'" },
  });

/** Gives each page a policy with a nonce of its own, which the framework puts on the scripts it writes into the page. */
export function proxy(request: NextRequest): NextResponse {
  if (Number(request.headers.get('content-length')) > MOST_BYTES) return tooLarge();
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
