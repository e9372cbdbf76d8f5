import 'server-only';
import { streamed } from './streamed';

/** CSV that is sent as it is read. */
export function csvAnswer(fileName: string, pieces: AsyncGenerator<string>): Response {
  return new Response(streamed(pieces).pipeThrough(new TextEncoderStream()), {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="${fileName}"` },
  });
}

/** The same of a small file that is whole. */
export const csvFile = (fileName: string, text: string): Response =>
  new Response(text, {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="${fileName}"` },
  });
