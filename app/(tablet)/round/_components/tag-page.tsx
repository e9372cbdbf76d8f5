import { useEffect, useState } from 'react';
import type { VisitOnFile } from '@/lib/core/tablet';
import { useSnapshot } from '../_lib/tablet-context';
import { go, to } from '../_lib/use-place';
import { ScanTag } from './scan-tag';
import { Card, TouchButton, TouchField } from './touch';

/** Where the unit with this code is in the round on this tablet, the visit under way first. */
function placeOf(visits: readonly VisitOnFile[], text: string): string | null {
  const tag = text.trim().toUpperCase();
  const order = [...visits].sort((a, b) => Number(b.status === 'started') - Number(a.status === 'started'));
  for (const v of order) {
    const unit = v.units.find((u) => u.tag.toUpperCase() === tag);
    if (unit) return to.unit(v.id, unit.id);
  }
  return null;
}

export function TagPage({ code }: { code: string }) {
  const visits = useSnapshot((s) => s.visits);
  const [typed, setTyped] = useState('');
  const [missedNow, setMissed] = useState('');
  const scanned = code ? placeOf(visits, code) : null;
  const missed = missedNow || (code && !scanned ? code : '');
  const find = (text: string) => {
    const place = placeOf(visits, text);
    if (place) go(place);
    else setMissed(text.trim().toUpperCase());
  };
  useEffect(() => {
    if (scanned) window.location.replace(scanned);
  }, [scanned]);
  return (
    <div className="mx-auto flex max-w-md flex-col gap-4">
      <h1>Open by tag</h1>
      {missed ? (
        <p role="alert" className="font-bold text-alarm">
          No unit with the code {missed} is in the round on this tablet. Check the label, or refresh with signal.
        </p>
      ) : null}
      <Card title="With the camera">
        <ScanTag onCode={find} />
      </Card>
      <Card title="By hand">
        <form
          className="flex flex-col gap-3"
          onSubmit={(e) => {
            e.preventDefault();
            find(typed);
          }}
        >
          <TouchField
            id="tag-code"
            label="Code on the label"
            value={typed}
            autoCapitalize="characters"
            maxLength={40}
            onChange={(e) => setTyped(e.target.value)}
          />
          <TouchButton look="primary" type="submit" disabled={typed.trim().length < 2}>
            Open
          </TouchButton>
        </form>
      </Card>
    </div>
  );
}
