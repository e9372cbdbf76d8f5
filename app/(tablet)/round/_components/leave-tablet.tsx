import { useState } from 'react';
import { endSession } from '@/lib/tablet/end-session';
import { makeHandover } from '@/lib/tablet/handover';
import { APP_VERSION, tabletName } from '../_lib/app-name';
import { handedOverIn, NOTHING_HANDED_OVER, onlyHere } from '../_lib/handed-over';
import { leaveOnPurpose } from '../_lib/leave-on-purpose';
import { useSnapshot, useTablet } from '../_lib/tablet-context';
import { unsentWords } from '../_lib/unsent-words';
import { to } from '../_lib/use-place';
import { TakeInFile } from './take-in-file';
import { Card, TouchButton } from './touch';

/** Signing out: refused while work is unsent, unless it has been handed over as a file. */
export function LeaveTablet() {
  const s = useSnapshot((s) => s);
  const tablet = useTablet();
  const [message, setMessage] = useState('');
  const [handedOver, setHandedOver] = useState(NOTHING_HANDED_OVER);
  const unsent = s.waiting + s.photos.length;
  const out = async () => {
    // Once what is being written stands.
    await tablet.unsent();
    const left = onlyHere(tablet.snapshot, handedOver);
    const count = left.entries + left.pictures;
    if (count > 0)
      return setMessage(
        `${unsentWords(left)} ${count === 1 ? 'is' : 'are'} still only on this tablet. Send first, or save unsent work as a file for the office.`,
      );
    if (!(await endSession()))
      return setMessage('Without signal the sign-in cannot be ended in the office. Try again with signal, or ask the owner to end it.');
    leaveOnPurpose();
    await tablet.leave();
    window.location.replace(to.signIn);
  };
  const save = async () => {
    if (!tablet.database) return;
    const file = await makeHandover(tablet.database, { name: tabletName(navigator.userAgent), appVersion: APP_VERSION }, Date.now());
    const url = URL.createObjectURL(new Blob([JSON.stringify(file)], { type: 'application/json' }));
    const link = document.createElement('a');
    link.href = url;
    link.download = `rimebook-${file.madeAt.slice(0, 16).replace(':', '')}.json`;
    link.click();
    setTimeout(() => URL.revokeObjectURL(url), 60_000);
    setHandedOver(handedOverIn(file));
    setMessage(
      'The file is saved. Give it to the office; everything also stays on this tablet and goes by itself when you sign in here again.',
    );
  };
  return (
    <Card title={s.me ? `Signed in as ${s.me.name}` : 'Sign out'}>
      {message ? (
        <p role="alert" className="mb-3 font-bold">
          {message}
        </p>
      ) : null}
      <div className="flex flex-wrap gap-2">
        <TouchButton onClick={() => void out()}>Sign out</TouchButton>
        {unsent > 0 ? <TouchButton onClick={() => void save()}>Save unsent work as a file</TouchButton> : null}
      </div>
      <TakeInFile />
    </Card>
  );
}
