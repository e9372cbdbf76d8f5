import 'server-only';

/** CSV that is sent as it is read, so that a large one never stands in memory. */
export function csvAnswer(fileName: string, pieces: AsyncGenerator<string>): Response {
  const text = new ReadableStream<string>({
    async pull(to) {
      const { done, value } = await pieces.next();
      if (done) to.close();
      else to.enqueue(value);
    },
    cancel: () => void pieces.return(undefined),
  });
  return new Response(text.pipeThrough(new TextEncoderStream()), {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="${fileName}"` },
  });
}

/** The same of a small file that is whole. */
export const csvFile = (fileName: string, text: string): Response =>
  new Response(text, {
    headers: { 'content-type': 'text/csv; charset=utf-8', 'content-disposition': `attachment; filename="${fileName}"` },
  });
