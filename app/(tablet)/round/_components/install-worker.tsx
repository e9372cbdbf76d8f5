import { useEffect, useState } from 'react';
import { leaveOnPurpose } from '../_lib/leave-on-purpose';
import { Chip } from './touch';

/** Registers the service worker, and says when a newer version waits. */
export function InstallWorker() {
  const [waiting, setWaiting] = useState(false);
  useEffect(() => {
    if (!('serviceWorker' in navigator) || process.env.NODE_ENV === 'development') return;
    let hourly: ReturnType<typeof setInterval> | undefined;
    void navigator.serviceWorker.register('/serwist/sw.js', { scope: '/round' }).then(
      (registration) => {
        const look = () => setWaiting(Boolean(registration.waiting && navigator.serviceWorker.controller));
        look();
        registration.addEventListener('updatefound', () => registration.installing?.addEventListener('statechange', look));
        // A tablet may show the round for weeks without being reloaded.
        hourly = setInterval(() => void registration.update().catch(() => {}), 3_600_000);
      },
      // Without it the round still works while there is signal; the next visit tries again.
      () => {},
    );
    return () => clearInterval(hourly);
  }, []);
  if (!waiting) return null;
  return (
    <div role="status" className="border-b border-line bg-cold-wash px-4 py-2">
      <p className="mx-auto flex max-w-[64rem] flex-wrap items-center justify-between gap-3">
        A newer Rimebook is on this tablet. Your entries stay as they are.
        <Chip onClick={() => void change()}>Change over now</Chip>
      </p>
    </div>
  );
}

async function change(): Promise<void> {
  const registration = await navigator.serviceWorker.getRegistration('/round');
  const reload = () => {
    leaveOnPurpose();
    window.location.reload();
  };
  navigator.serviceWorker.addEventListener('controllerchange', reload, { once: true });
  registration?.waiting?.postMessage({ type: 'SKIP_WAITING' });
}
