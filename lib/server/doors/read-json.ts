import 'server-only';
import { AppError } from '../../core/errors';

/** A request's body as bytes, refused while it comes in once it is larger than `most`. */
export async function readBytes(request: Request, most: number): Promise<Uint8Array> {
  const chunks: Uint8Array[] = [];
  let size = 0;
  const reader = request.body?.getReader();
  for (let part = await reader?.read(); part && !part.done; part = await reader?.read()) {
    size += part.value.byteLength;
    if (size > most) {
      await reader?.cancel();
      throw new AppError(
        'too_large',
        `That is more than ${most >= 1e6 ? `${Math.round(most / 1e6)} MB` : `${Math.round(most / 1e3)} kB`}.`,
      );
    }
    chunks.push(part.value);
  }
  return Buffer.concat(chunks);
}

/** A request's body as JSON. A body that was cut short is an error of its own, not an empty one. */
export async function readJson(request: Request, most: number): Promise<unknown> {
  const bytes = await readBytes(request, most);
  try {
    return JSON.parse(new TextDecoder('utf-8', { fatal: true }).decode(bytes));
  } catch {
    throw new AppError('invalid', 'What came in was cut short or damaged. Nothing was changed.');
  }
}
