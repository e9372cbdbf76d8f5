import { contentSecurityPolicy, hashOf } from '@/lib/server/answers/content-security-policy';
import { tabletBundle } from '@/lib/server/answers/tablet-bundle';

// A shell without data, the same for everyone and kept on the tablet; what it shows comes from guarded routes.
export const dynamic = 'force-static';

export async function GET() {
  const { shell, inlineScript } = await tabletBundle();
  return new Response(shell, {
    headers: {
      'content-type': 'text/html; charset=utf-8',
      'cache-control': 'no-cache',
      'content-security-policy': contentSecurityPolicy(hashOf(inlineScript)),
    },
  });
}
