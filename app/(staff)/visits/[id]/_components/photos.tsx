import type { UnitReport } from '@/lib/core/tablet/visit-report';
import { momentIn } from '@/lib/core/calendar/when';
import { ASPECT_LABEL } from '@/lib/core/findings/grades';

/** Pictures of a unit; each opens in full. One still on its way says so. `whole`: what one of no part in particular shows. */
export function Photos({ photos, timeZone, whole = 'Whole unit' }: { photos: UnitReport['photos']; timeZone: string; whole?: string }) {
  if (photos.length === 0) return null;
  return (
    <ul className="mt-4 flex flex-wrap gap-3">
      {photos.map((p) => {
        const caption = `${p.aspect ? ASPECT_LABEL[p.aspect] : whole}, ${p.phase} cleaning`;
        return (
          <li key={p.id} className="w-40 text-sm">
            {p.fileId ? (
              <a href={`/api/files/${p.fileId}`} target="_blank" rel="noopener" className="block">
                {/* eslint-disable-next-line @next/next/no-img-element -- served by our own guarded route */}
                <img
                  src={`/api/files/${p.fileId}?size=thumb`}
                  alt={caption}
                  loading="lazy"
                  className="h-30 w-40 rounded-md border border-line object-cover"
                />
              </a>
            ) : (
              <span className="flex h-30 w-40 items-center justify-center rounded-md border border-dashed border-edge p-2 text-center text-soft">
                Still on the tablet
              </span>
            )}
            {caption}
            <span className="block text-soft">{momentIn(p.takenAt, timeZone)}</span>
          </li>
        );
      })}
    </ul>
  );
}
