'use client';

import { useEffect, useRef } from 'react';
import { Button } from '@/app/_ui/buttons/button';
import { MoveForm } from './change-forms';
import type { Target } from './time-grid';
import { kitchenInFull } from '@/lib/core/wording/kitchen-name';

type Movable = { id: string; version: number; kitchen: string; customer: string; minutes: number };
type Props = { visit: Movable; to: Target; technicians: { value: string; label: string }[]; onClose: () => void };

/** A visit put elsewhere is not moved yet: the time is confirmed and a reason given. Moving leads back to the week. */
export function DropDialog({ visit: v, to, technicians, onClose }: Props) {
  const box = useRef<HTMLDialogElement>(null);
  const place = kitchenInFull(v);
  useEffect(() => box.current?.showModal(), []);
  return (
    <dialog
      ref={box}
      onClose={onClose}
      aria-label={`Move ${place}`}
      className="m-auto w-full max-w-2xl rounded-lg border border-edge bg-paper p-4 text-ink backdrop:bg-black/40"
    >
      <p className="mb-3 font-bold">{place}</p>
      <MoveForm
        visitId={v.id}
        version={v.version}
        technicians={technicians}
        defaults={{ technicianId: to.technicianId, date: to.date, from: to.from, minutes: String(v.minutes) }}
      />
      <Button look="quiet" className="mt-3" onClick={() => box.current?.close()}>
        Keep it where it was
      </Button>
    </dialog>
  );
}
