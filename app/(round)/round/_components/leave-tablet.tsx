import { useState } from 'react';
import { endSession } from '@/lib/device/end-session';
import { useSnapshot, useTablet } from '../_lib/tablet-context';
import { Card, TouchButton } from './touch';

/** Signing out: refused while work is unsent, unless it is handed over as a file. */
export function LeaveTablet() {
  const s = useSnapshot();
  const tablet = useTablet();
  const [words, setWords] = useState('');
  const unsent = s.waiting + s.photos.length;
  const out = async () => {
    if (unsent > 0) return setWords(`${unsent} ${unsent === 1 ? 'entry is' : 'entries are'} still only on this tablet. Send them first, or hand them over as a file.`);
    if (!(await endSession()))
      return setWords('Without signal the sign-in cannot be ended in the office. Try again with signal, or ask the owner to end it.');
    tablet.leave();
    window.location.replace('/sign-in');
  };
  return (
    <Card title={s.me ? `Signed in as ${s.me.name}` : 'Sign out'}>
      {words ? (
        <p role="alert" className="mb-3 font-bold text-alarm">
          {words}
        </p>
      ) : null}
      <div className="flex flex-wrap gap-2">
        <TouchButton onClick={() => void out()}>Sign out</TouchButton>
      </div>
    </Card>
  );
}
