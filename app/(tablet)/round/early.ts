import { DATABASE_VERSION, databaseName } from '@/lib/tablet/database-name';
import { holder } from '@/lib/tablet/people';

/** The app's own connection is open by then. */
const OPEN_MS = 10_000;

// Stands in the shell itself: opening the tablet's storage takes a browser just started longer than
// fetching the code that asks for it, so it is woken first. Opens only what is there, as it is, and lets go again.
const who = holder();
if (who) {
  const asked = indexedDB.open(databaseName(who), DATABASE_VERSION);
  asked.onupgradeneeded = () => asked.transaction?.abort();
  asked.onerror = (event) => event.preventDefault();
  asked.onsuccess = () => {
    asked.result.onversionchange = () => asked.result.close();
    setTimeout(() => asked.result.close(), OPEN_MS);
  };
}
