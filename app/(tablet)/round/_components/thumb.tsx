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
      <span className="flex h-14 w-20 items-center max-sm:text-[0] sm:h-24 sm:w-32 justify-center rounded-md border border-dashed border-edge p-1 text-center text-xs text-soft">
        {alt}
      </span>
    );
  // eslint-disable-next-line @next/next/no-img-element -- the picture is on the tablet, no server may be asked
  return <img src={url} alt={alt} className="h-14 w-20 rounded-md border border-edge object-cover sm:h-24 sm:w-32" />;
}
