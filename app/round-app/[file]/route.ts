import { roundApp } from '@/lib/server/round-app';

// Scripts, styles and fonts of the round. Their names change with their content.
export const dynamic = 'force-static';
export const dynamicParams = false;

export const generateStaticParams = async () => [...(await roundApp()).files.keys()].map((file) => ({ file }));

export async function GET(_: Request, { params }: { params: Promise<{ file: string }> }) {
  const file = (await roundApp()).files.get((await params).file);
  if (!file) return new Response('Not found', { status: 404 });
  return new Response(file.bytes, { headers: { 'content-type': file.type, 'cache-control': 'public, max-age=31536000, immutable' } });
}
