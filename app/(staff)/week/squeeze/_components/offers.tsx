'use client';

import { useEffect, useRef, useState, useTransition } from 'react';
import { useRouter } from 'next/navigation';
import type { SqueezeAnswer, SqueezeOffer } from '@/lib/core/planning/squeeze/offer';
import { FormErrors } from '@/app/_ui/fields/field';
import { take } from '../actions';
import { Offer } from './offer';

type Ask = { kitchenId: string; jobId?: string; unitIds: string[]; taskIds: string[]; what: string; minutes: number };

/** The ways found, least disturbance first. Taking one books it and moves the others at once. */
export function Offers({ ask, answer, onBooked }: { ask: Ask; answer: SqueezeAnswer; onBooked: () => void }) {
  const router = useRouter();
  const heading = useRef<HTMLHeadingElement>(null);
  const [busy, start] = useTransition();
  const [wrong, setWrong] = useState<{ of: SqueezeAnswer; message: string } | null>(null);
  useEffect(() => heading.current?.focus(), [answer]);

  const accept = (offer: SqueezeOffer) =>
    start(async () => {
      const reply = await take({
        ...ask,
        technicianId: offer.technicianId,
        startMs: offer.startMs,
        moves: offer.moves.map(({ visitId, version, technicianId, startMs, endMs }) => ({
          visitId,
          version,
          technicianId,
          startMs,
          endMs,
        })),
      });
      if (reply.ok) {
        onBooked();
        router.push(`/week/${reply.data.visitId}`);
      } else setWrong({ of: answer, message: reply.message });
    });

  return (
    <section aria-labelledby="offers">
      <h2 id="offers" ref={heading} tabIndex={-1}>
        {answer.offers.length === 0
          ? 'No time found'
          : answer.offers.length === 1
            ? 'One way'
            : `${answer.offers.length} ways, least disturbance first`}
      </h2>
      {answer.notes.map((note) => (
        <p key={note} className="mt-1">
          {note}
        </p>
      ))}
      {answer.couldAsk.length > 0 ? (
        <div className="mt-2 rounded-md border-2 border-edge bg-sheet p-3">
          <p className="font-bold">Nobody at work or on call is there within two hours. Ring and ask:</p>
          <ul>
            {answer.couldAsk.map((p) => (
              <li key={p.name}>
                {p.name}: {p.phone ? <a href={`tel:${p.phone}`}>{p.phone}</a> : 'no number on file'}
              </li>
            ))}
          </ul>
          <p className="text-sm text-soft">The owner sets numbers and hours on call under People.</p>
        </div>
      ) : null}
      <div className="mt-3">
        <FormErrors errors={wrong?.of === answer ? [wrong.message] : null} />
      </div>
      <ol className="mt-3 flex flex-col gap-3">
        {answer.offers.map((offer, i) => (
          <Offer
            key={`${offer.technicianId} ${offer.startMs}`}
            offer={offer}
            timeZone={answer.timeZone}
            first={i === 0}
            busy={busy}
            onTake={() => accept(offer)}
          />
        ))}
      </ol>
    </section>
  );
}
