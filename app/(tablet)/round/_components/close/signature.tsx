import { useRef, useState } from 'react';
import type { SigningWords } from '@/lib/core/customer-words/signing';
import type { VisitOnFile } from '@/lib/core/tablet';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { Card, Chip, TouchField } from '../touch';
import { DrawPad, type Drawn, type Strokes } from './draw-pad';

const NOTHING: Strokes = [];

/** The person on site signs, or nobody was there. */
export function Signature({ visit, say }: { visit: VisitOnFile; say: SigningWords }) {
  const { write, busy } = useWrite(visit.id);
  const standing = visit.entries.signature;
  const [again, setAgain] = useState(false);
  const { draft: name, setDraft: setName } = useDraft(`${visit.id}:signer`, '');
  const { draft: strokes, setDraft: setStrokes, clear: clearStrokes } = useDraft(`${visit.id}:strokes`, NOTHING);
  const pad = useRef<Drawn>(null);
  const done = () => {
    clearStrokes();
    setAgain(false);
  };
  const sign = async () => {
    const png = pad.current?.png();
    if (png && (await write('signature.set', { nobodyThere: false, signedBy: name.trim(), png }))) done();
  };
  const nobody = async () => {
    if (await write('signature.set', { nobodyThere: true, signedBy: '', png: null })) done();
  };
  if (standing && !again)
    return (
      <Card title={say.signature}>
        <div className="flex flex-wrap items-center justify-between gap-3">
          <p>{standing.nobodyThere ? say.nobodyThere : say.by(standing.signedBy)}</p>
          {visit.status === 'done' ? null : <Chip onClick={() => setAgain(true)}>{say.again}</Chip>}
        </div>
      </Card>
    );
  return (
    <Card title={say.signature}>
      <p className="mb-3 text-soft">{say.why}</p>
      <DrawPad pad={pad} strokes={strokes} onStrokes={setStrokes} />
      <div className="mt-3 grid grid-cols-1 gap-3 sm:grid-cols-[1fr_auto] sm:items-end">
        <TouchField id="signed-by" label={say.name} value={name} maxLength={200} onChange={(e) => setName(e.target.value)} />
        <Chip disabled={busy || strokes.length === 0 || name.trim().length < 2} onClick={() => void sign()}>
          {say.keep}
        </Chip>
      </div>
      <Chip className="mt-3" disabled={busy} onClick={() => void nobody()}>
        {say.nobody}
      </Chip>
    </Card>
  );
}
