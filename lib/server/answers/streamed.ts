import 'server-only';

/** What is sent as it is read, so that a large file never stands in memory. */
export const streamed = <T>(pieces: AsyncGenerator<T>): ReadableStream<T> =>
  new ReadableStream<T>({
    async pull(to) {
      const { done, value } = await pieces.next();
      if (done) to.close();
      else to.enqueue(value);
    },
    cancel: () => void pieces.return(undefined),
  });
