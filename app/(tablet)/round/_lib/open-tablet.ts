import { officeOverHttp } from '@/lib/tablet/office';
import { Tablet } from '@/lib/tablet/tablet';
import { APP_VERSION, tabletName } from './app-name';

const SOON_MS = 500;
const EVERY_MS = 60_000;

/** The tablet of this window, kept like those of other windows. It reads and talks once asked to. */
export function openTablet(): Tablet {
  let soon: ReturnType<typeof setTimeout> | undefined;
  const channel = 'BroadcastChannel' in window ? new BroadcastChannel('rimebook') : null;
  const tablet = new Tablet({
    office: officeOverHttp(),
    clock: () => Date.now(),
    name: { name: tabletName(navigator.userAgent), appVersion: APP_VERSION },
    onChange: () => {
      channel?.postMessage('changed');
      clearTimeout(soon);
      soon = setTimeout(() => void tablet.sync(), SOON_MS);
    },
  });
  if (channel) channel.onmessage = () => void tablet.reload();
  return tablet;
}

/** Talks to the office now and while there is signal, and asks the browser not to clear the tablet's storage when the disk runs low. */
export async function keepTalking(tablet: Tablet): Promise<void> {
  const talk = () => void tablet.sync();
  window.addEventListener('online', talk);
  document.addEventListener('visibilitychange', () => document.visibilityState === 'visible' && talk());
  setInterval(talk, EVERY_MS);
  if (tablet.snapshot.phase !== 'refused') talk();
  tablet.setPersisted((await navigator.storage?.persist?.().catch(() => null)) ?? null);
}
