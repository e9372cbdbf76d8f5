import path from 'node:path';
import { tabletBundle, tabletFile } from '@/lib/server/answers/tablet-bundle';

// Scripts, styles and fonts of the round. Their names change with their content.
export const dynamic = 'force-static';
export const dynamicParams = false;

const TYPES: Record<string, string> = {
  '.js': 'text/javascript; charset=utf-8',
  '.css': 'text/css; charset=utf-8',
  '.woff2': 'font/woff2',
  '.woff': 'font/woff',
};

export const generateStaticParams = async () => (await tabletBundle()).files.map((file) => ({ file }));

export async function GET(_: Request, { params }: { params: Promise<{ file: string }> }) {
  const { file } = await params;
  const bytes = await tabletFile(file);
  if (!bytes) return new Response('Not found', { status: 404 });
  const type = TYPES[path.extname(file)] ?? 'application/octet-stream';
  return new Response(bytes, { headers: { 'content-type': type, 'cache-control': 'public, max-age=31536000, immutable' } });
}
