import { createContext, useContext, useEffect, useState, useSyncExternalStore, type ReactNode } from 'react';
import { officeOverHttp } from '@/lib/device/office';
import { EMPTY, type Snapshot } from '@/lib/device/snapshot';
import { Tablet } from '@/lib/device/tablet';
import { APP_VERSION, tabletName } from './app-name';

const Held = createContext<Tablet | null>(null);

const SOON_MS = 500;
const EVERY_MS = 60_000;

/** Makes the tablet once, keeps it talking while there is signal, and keeps several windows alike. */
export function TabletProvider({ children }: { children: ReactNode }) {
  const [tablet, setTablet] = useState<Tablet | null>(null);
  useEffect(() => {
    let soon: ReturnType<typeof setTimeout> | undefined;
    const channel = 'BroadcastChannel' in window ? new BroadcastChannel('rimebook') : null;
    const made = new Tablet({
      office: officeOverHttp(),
      clock: () => Date.now(),
      name: { name: tabletName(navigator.userAgent), appVersion: APP_VERSION },
      onChange: () => {
        channel?.postMessage('changed');
        clearTimeout(soon);
        soon = setTimeout(() => void made.sync(), SOON_MS);
      },
    });
    const talk = () => void made.sync();
    const whenSeen = () => document.visibilityState === 'visible' && talk();
    if (channel) channel.onmessage = () => void made.reload();
    window.addEventListener('online', talk);
    document.addEventListener('visibilitychange', whenSeen);
    const every = setInterval(talk, EVERY_MS);
    // eslint-disable-next-line react-hooks/set-state-in-effect -- the tablet exists in the browser only
    setTablet(made);
    void made.start();
    void askToPersist(made);
    return () => {
      clearTimeout(soon);
      clearInterval(every);
      channel?.close();
      window.removeEventListener('online', talk);
      document.removeEventListener('visibilitychange', whenSeen);
    };
  }, []);
  return <Held.Provider value={tablet}>{children}</Held.Provider>;
}

/** Asks the browser not to clear the tablet's storage when the disk runs low. */
async function askToPersist(tablet: Tablet): Promise<void> {
  try {
    tablet.setPersisted((await navigator.storage?.persist?.()) ?? null);
  } catch {
    tablet.setPersisted(null);
  }
}

const nothing = () => () => {};

export function useSnapshot(): Snapshot {
  const tablet = useContext(Held);
  return useSyncExternalStore(tablet?.subscribe ?? nothing, tablet?.read ?? (() => EMPTY), () => EMPTY);
}

/** For event handlers: the tablet is there once anything can be pressed. */
export function useTablet(): Tablet {
  const tablet = useContext(Held);
  if (!tablet) throw new Error('The tablet is not ready.');
  return tablet;
}
export const useMaybeTablet = (): Tablet | null => useContext(Held);
