import { useSnapshot, useTablet } from '../_lib/tablet-context';
import { Card, TouchButton } from './touch';

/** Asked once, of whoever drives: whether the office may learn from arrivals where a kitchen's door is. Off until answered. */
export function AskArrivals() {
  const tablet = useTablet();
  const me = useSnapshot((s) => s.me);
  if (me?.sharesArrivals !== null || !('geolocation' in navigator)) return null;
  const answer = (allow: boolean) => {
    void tablet.allowArrivals(allow).catch(() => {});
    // The browser asks too; better now than at a kitchen's door.
    if (allow)
      navigator.geolocation.getCurrentPosition(
        () => {},
        () => {},
      );
  };
  return (
    <Card title="May arrivals say where the kitchen is?">
      <p>
        When you tap “I have arrived”, this tablet can tell the office where it is at that moment, so that it learns where the kitchen’s
        door is. At no other time, and without your name. It is deleted once it has served, after 90 days at the latest.
      </p>
      <p className="mt-1 text-soft">You can change this at any time under My settings.</p>
      <div className="mt-3 flex flex-wrap gap-2">
        <TouchButton onClick={() => answer(true)}>Yes, when I arrive</TouchButton>
        <TouchButton onClick={() => answer(false)}>No</TouchButton>
      </div>
    </Card>
  );
}
