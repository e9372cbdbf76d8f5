import { leaveOnPurpose } from '../_lib/leave-on-purpose';
import { useSnapshot } from '../_lib/tablet-context';
import { to } from '../_lib/use-place';

/** What the technician must know now, in words with the next step. Within the bar at the top, so that it is seen wherever the page stands. */
export function TroubleBar() {
  const s = useSnapshot((s) => s);
  if (s.phase !== 'ready') return null;
  const signedOut = s.line === 'signed_out';
  const message = s.trouble?.message ?? (signedOut || s.line === 'failed' ? s.lineWords : '');
  if (!message && !signedOut) return null;
  return (
    <div role="alert" className="border-t-2 border-alarm bg-alarm-wash text-sm font-bold leading-snug text-alarm">
      <div className="mx-auto flex max-w-[64rem] items-center justify-between gap-3 px-4">
        <p className="py-1.5">{message}</p>
        {signedOut ? (
          <a href={to.signIn} onClick={leaveOnPurpose} className="inline-flex min-h-12 shrink-0 items-center text-alarm underline">
            Sign in again
          </a>
        ) : null}
      </div>
    </div>
  );
}
