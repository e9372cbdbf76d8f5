import { useSnapshot } from '../_lib/tablet-context';

/** What the technician must know now, in words with the next step. */
export function TroubleBar() {
  const s = useSnapshot((s) => s);
  if (s.phase !== 'ready') return null;
  const words = s.trouble?.words ?? (s.line === 'signed_out' || s.line === 'failed' ? s.lineWords : '');
  if (!words) return null;
  return (
    <div role="alert" className="border-b-2 border-alarm bg-alarm-wash px-4 py-3 font-bold text-alarm">
      <p className="mx-auto max-w-[64rem]">
        {words}{' '}
        {s.line === 'signed_out' && !s.trouble ? (
          <a href="/sign-in" className="inline-flex min-h-12 items-center text-alarm underline">
            Sign in again
          </a>
        ) : null}
      </p>
    </div>
  );
}
