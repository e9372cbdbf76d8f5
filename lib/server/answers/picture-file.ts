import 'server-only';

/** A picture of a report, shown as a picture and as nothing else. */
export const pictureFile = ({ mime, bytes }: { mime: string; bytes: Uint8Array<ArrayBuffer> }): Response =>
  new Response(bytes, {
    headers: {
      'content-type': mime,
      'cache-control': 'private, no-cache',
      'content-security-policy': "default-src 'none'; sandbox",
      'x-content-type-options': 'nosniff',
    },
  });
