import { useEffect, useState } from 'react';
import { useTablet } from '../_lib/tablet-context';

/** A small picture from the tablet's own storage: one that came down, or one just taken. */
export function Thumb({ fileId, photoId, alt }: { fileId?: string | null; photoId?: string; alt: string }) {
  const tablet = useTablet();
  const [url, setUrl] = useState<string | null>(null);
  useEffect(() => {
    let made: string | null = null;
    let gone = false;
    const find = async () => {
      const own = photoId ? await tablet.database?.get('photos', photoId) : undefined;
      const kept = own ?? (fileId ? await tablet.database?.get('thumbs', fileId) : undefined);
      if (!kept || gone) return;
      made = URL.createObjectURL(new Blob([kept.bytes], { type: kept.mime }));
      setUrl(made);
    };
    void find().catch(() => {});
    return () => {
      gone = true;
      if (made) URL.revokeObjectURL(made);
    };
  }, [tablet, fileId, photoId]);
  if (!url)
    return (
      <span className="flex h-24 w-32 items-center justify-center rounded-md border border-dashed border-edge p-1 text-center text-xs text-soft">
        {alt}
      </span>
    );
  // eslint-disable-next-line @next/next/no-img-element -- the picture is on the tablet, no server may be asked
  return <img src={url} alt={alt} className="h-24 w-32 rounded-md border border-line object-cover" />;
}
