import { useRef, useState } from 'react';
import type { VisitOnFile } from '@/lib/core/tablet';
import { useDraft } from '../../_lib/use-draft';
import { useWrite } from '../../_lib/use-write';
import { Card, Chip, TouchField } from '../touch';
import { DrawPad, type Drawn } from './draw-pad';

/** The person on site signs, or nobody was there. */
export function Signature({ visit }: { visit: VisitOnFile }) {
  const { write, busy } = useWrite(visit.id);
  const standing = visit.entries.signature;
  const [again, setAgain] = useState(false);
  const { draft: name, setDraft: setName } = useDraft(`${visit.id}:signer`, '');
  const [drawn, setDrawn] = useState(false);
  const pad = useRef<Drawn>(null);
  const sign = async () => {
    const png = pad.current?.png();
    if (png && (await write('signature.set', { nobodyThere: false, signedBy: name.trim(), png }))) setAgain(false);
  };
  const nobody = async () => {
    if (await write('signature.set', { nobodyThere: true, signedBy: '', png: null })) setAgain(false);
  };
  if (standing && !again)
    return (
      <Card title="Signature">
        <div className="flex flex-wrap items-center justify-between gap-3">
          <p>{standing.nobodyThere ? 'Nobody was there to sign.' : `Signed by ${standing.signedBy}.`}</p>
          {visit.status === 'done' ? null : <Chip onClick={() => setAgain(true)}>Sign again</Chip>}
        </div>
      </Card>
    );
  return (
    <Card title="Signature">
      <p className="mb-3 text-soft">Signs that we were here and what was found; nothing more.</p>
      <DrawPad pad={pad} onDrawn={setDrawn} />
      <div className="mt-3 grid grid-cols-1 gap-3 sm:grid-cols-[1fr_auto] sm:items-end">
        <TouchField id="signed-by" label="Name" value={name} maxLength={200} onChange={(e) => setName(e.target.value)} />
        <Chip disabled={busy || !drawn || name.trim().length < 2} onClick={() => void sign()}>
          Keep signature
        </Chip>
      </div>
      <Chip className="mt-3" disabled={busy} onClick={() => void nobody()}>
        Nobody there
      </Chip>
    </Card>
  );
}
