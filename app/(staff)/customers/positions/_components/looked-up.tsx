'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useState, useTransition } from 'react';
import { counted } from '@/lib/core/wording/counted';
import { Button } from '@/app/_ui/buttons/button';
import { FormErrors } from '@/app/_ui/fields/field';
import { Sheet } from '@/app/_ui/page/sheet';
import { acceptFound, lookUpAll, refuseFound, stopLookUp } from '../actions';
import { FoundRow, type FoundKitchen } from './found-row';

type Props = {
  waiting: number;
  problem: string;
  found: FoundKitchen[];
  foundTotal: number;
  unfound: { id: string; name: string; address: string; problem: string }[];
  lost: number;
};
type Reply = { ok: true; data: unknown } | { ok: false; message: string };
const LOOK_EVERY_MS = 2500;

/** Addresses asked in bulk: how far that is, and what came back, for a person to accept. */
export function LookedUp({ waiting, problem, found, foundTotal, unfound, lost }: Props) {
  const router = useRouter();
  const [busy, start] = useTransition();
  const [wrong, setWrong] = useState('');
  const [chosen, setChosen] = useState<Record<string, number>>({});
  const [ticks, setTicks] = useState<Record<string, boolean>>({});
  const ticked = (f: FoundKitchen) => ticks[f.id] ?? f.confidence === 'fits';
  useEffect(() => {
    if (waiting === 0) return;
    const again = setInterval(() => router.refresh(), LOOK_EVERY_MS);
    return () => clearInterval(again);
  }, [waiting, router]);

  const run = (call: () => Promise<Reply>) =>
    start(async () => {
      const reply = await call();
      setWrong(reply.ok ? '' : reply.message);
    });
  const taken = found.filter(ticked).map((f) => ({ kitchenId: f.id, index: chosen[f.id] ?? 0 }));
  return (
    <Sheet title="Found by address">
      <FormErrors errors={wrong ? [wrong] : null} />
      <div role="status" className="flex flex-wrap items-center gap-3">
        {waiting > 0 ? (
          <>
            <p className="flex-1">
              {counted(waiting, 'address waits', 'addresses wait')}: one is asked a second, also while this page is closed.{' '}
              {problem ? <b className="text-alarm">{problem} It is tried again every minute.</b> : null}
            </p>
            <Button disabled={busy} onClick={() => run(() => stopLookUp({}))}>
              Stop asking
            </Button>
          </>
        ) : lost > 0 ? (
          <>
            <p className="flex-1 text-soft">
              The addresses on file are sent to the place-finding service that this shop’s server names, nothing else. What comes back is
              only proposed.
            </p>
            <Button disabled={busy} onClick={() => run(() => lookUpAll({}))}>
              Look up the addresses
            </Button>
          </>
        ) : null}
      </div>
      {found.length > 0 ? (
        <>
          <ul className="mt-2">
            {found.map((f) => (
              <FoundRow
                key={f.id}
                found={f}
                index={chosen[f.id] ?? 0}
                ticked={ticked(f)}
                busy={busy}
                onTick={(on) => setTicks({ ...ticks, [f.id]: on })}
                onChoose={(i) => setChosen({ ...chosen, [f.id]: i })}
                onRefuse={() => run(() => refuseFound({ kitchenId: f.id }))}
              />
            ))}
          </ul>
          {foundTotal > found.length ? <p className="mt-2 text-soft">and {foundTotal - found.length} more, as these are done.</p> : null}
          <div className="mt-3">
            <Button look="primary" disabled={busy || taken.length === 0} onClick={() => run(() => acceptFound({ taken }))}>
              {`Accept ${counted(taken.length, 'place')}`}
            </Button>
          </div>
        </>
      ) : null}
      {unfound.length > 0 ? (
        <>
          <h3 className="mt-4">Not found</h3>
          <ul className="list-disc pl-5">
            {unfound.map((k) => (
              <li key={k.id}>
                {k.name}, {k.address}: {k.problem}
              </li>
            ))}
          </ul>
        </>
      ) : null}
    </Sheet>
  );
}
