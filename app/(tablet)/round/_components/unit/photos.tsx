import { useRef, useState, type ChangeEvent } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { aspectsOf, has } from '@/lib/core/findings/for-unit';
import { ASPECT_LABEL, type Aspect } from '@/lib/core/findings/grades';
import type { PhotoEntry, UnitOnFile, VisitOnFile } from '@/lib/core/tablet';
import { PictureError, shrinkPicture } from '../../_lib/shrink-picture';
import { useSnapshot } from '../../_lib/tablet-context';
import { useWide } from '../../_lib/use-wide';
import { useWrite } from '../../_lib/use-write';
import { EntryMark } from '../entry-mark';
import { Thumb } from '../thumb';
import { Card, Chip, TouchSelect } from '../touch';

type Phase = 'before' | 'after';
const aboutOf = (unit: UnitOnFile): { value: Aspect | null; label: string }[] => [
  { value: null, label: 'Whole unit' },
  ...aspectsOf(unit).flatMap((s) => s.aspects.map((a) => ({ value: a, label: ASPECT_LABEL[a] }))),
];

function notKept(n: number): string {
  const it = n === 1 ? 'it' : 'them';
  return `${counted(n, 'picture was', 'pictures were')} NOT kept: this tablet could not save ${it}. Do what the top of the screen says, then take ${it} again.`;
}

/** Pictures of a unit, tied to what they show, before or after. */
export function Photos({ visit, unit }: { visit: VisitOnFile; unit: UnitOnFile }) {
  const { write, busy, now } = useWrite(visit.id);
  const wide = useWide();
  const [about, setAbout] = useState<Aspect | null>(has(unit, 'coil') ? 'coil' : null);
  const choices = aboutOf(unit);
  const [working, setWorking] = useState(false);
  const [message, setMessage] = useState('');
  const inputs = { before: useRef<HTMLInputElement>(null), after: useRef<HTMLInputElement>(null) };
  const take = async (event: ChangeEvent<HTMLInputElement>, phase: Phase) => {
    const files = [...(event.target.files ?? [])];
    event.target.value = '';
    setMessage('');
    setWorking(true);
    const said = new Set<string>();
    let lost = 0;
    for (const file of files) {
      try {
        const { bytes, mime, sha256 } = await shrinkPicture(file);
        const kept = await write(
          'photo.attach',
          { unitId: unit.id, aspect: about, phase, sha256, bytes: bytes.byteLength, takenAt: now() },
          { sha256, mime, bytes },
        );
        if (!kept) lost++;
      } catch (error) {
        said.add(error instanceof PictureError ? error.message : 'The picture could not be kept. What you wrote is safe.');
      }
    }
    if (lost > 0) said.add(notKept(lost));
    setMessage([...said].join(' '));
    setWorking(false);
  };
  const list = visit.entries.photos.filter((p) => p.unitId === unit.id);
  return (
    <Card id="photos" title={<span className="max-sm:sr-only">Photos</span>}>
      <div className="grid grid-cols-2 gap-2 sm:flex sm:flex-wrap sm:items-end">
        <div className="max-sm:col-span-2 sm:min-w-[12rem] sm:flex-1">
          <TouchSelect
            id="photo-shows"
            label={wide ? 'Shows' : 'Photo of'}
            beside={!wide}
            value={about ?? ''}
            onChange={(e) => setAbout(choices.find((a) => (a.value ?? '') === e.currentTarget.value)?.value ?? null)}
            options={choices.map((a) => ({ value: a.value ?? '', label: a.label }))}
          />
        </div>
        {(['before', 'after'] as const).map((phase) => (
          <span key={phase} className="flex">
            <input
              ref={inputs[phase]}
              type="file"
              accept="image/*"
              capture="environment"
              className="sr-only"
              tabIndex={-1}
              aria-label={`Photo ${phase} cleaning`}
              data-photo={phase}
              onChange={(e) => void take(e, phase)}
            />
            <Chip
              className="min-h-[3.75rem] w-full leading-tight max-sm:px-2"
              disabled={busy || working}
              onClick={() => inputs[phase].current?.click()}
            >
              Photo {phase} cleaning
            </Chip>
          </span>
        ))}
      </div>
      {working ? (
        <p role="status" className="mt-2">
          Making the picture small …
        </p>
      ) : null}
      {message ? (
        <p role="alert" className="mt-2 font-bold text-alarm">
          {message}
        </p>
      ) : null}
      <ul className="flex flex-wrap gap-x-3 gap-y-1 [&:not(:empty)]:mt-2 sm:[&:not(:empty)]:mt-3">
        {list.map((p) => (
          <li key={p.id} className="max-sm:w-full">
            <Picture photo={p} visitId={visit.id} open={visit.status !== 'done'} />
          </li>
        ))}
      </ul>
    </Card>
  );
}

function Picture({ photo, visitId, open }: { photo: PhotoEntry; visitId: string; open: boolean }) {
  const { write, busy } = useWrite(visitId);
  const kept = useSnapshot((s) => s.photos.find((p) => p.id === photo.id));
  const lost = useSnapshot((s) => s.lostPhotos.some((p) => p.id === photo.id));
  const shows = `${photo.aspect ? ASPECT_LABEL[photo.aspect] : 'Whole unit'}, ${photo.phase}`;
  return (
    <figure className="flex items-center gap-2 sm:w-32 sm:flex-col sm:items-stretch sm:gap-1">
      <Thumb photoId={photo.id} fileId={photo.fileId} alt={shows} />
      <figcaption className="text-sm leading-tight max-sm:flex-1">
        {shows}
        <br />
        {kept ? (
          <span>{kept.problem || 'On this tablet'}</span>
        ) : lost ? (
          <b className="text-alarm">Lost: take it again</b>
        ) : (
          <EntryMark id={photo.id} />
        )}
      </figcaption>
      {open ? (
        <Chip disabled={busy} onClick={() => void write('entry.strike', { what: 'photo', entryId: photo.id, why: 'Taken by mistake' })}>
          Take back
        </Chip>
      ) : null}
    </figure>
  );
}
