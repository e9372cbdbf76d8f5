import { useEffect } from 'react';
import { leavesOnPurpose } from '../_lib/leave-on-purpose';
import { useSnapshot } from '../_lib/tablet-context';

/** Closing or leaving the page with unsent work asks first, but for the round's own steps. The work is on the tablet either way. */
export function LeaveGuard() {
  const unsent = useSnapshot((s) => s.waiting + s.photos.length > 0);
  useEffect(() => {
    if (!unsent) return;
    const warn = (event: BeforeUnloadEvent) => {
      if (!leavesOnPurpose()) event.preventDefault();
    };
    window.addEventListener('beforeunload', warn);
    return () => window.removeEventListener('beforeunload', warn);
  }, [unsent]);
  return null;
}
