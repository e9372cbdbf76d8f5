'use client';

import { useEffect, useRef } from 'react';
import { Button } from '../../../_ui/button';
import { timeIn } from '@/lib/core/calendar/when';
import { MoveForm } from './change-forms';
import type { SlipVisit } from './slip';

export type Drop = { visit: SlipVisit; technicianId: string; date: string };
type Props = { drop: Drop; current: number | undefined; technicians: { value: string; label: string }[]; onClose: () => void };

/** A dropped slip is not moved yet: the time is confirmed and a reason given. Closes once the visit has changed. */
export function DropDialog({ drop, current, technicians, onClose }: Props) {
  const box = useRef<HTMLDialogElement>(null);
  useEffect(() => box.current?.showModal(), []);
  useEffect(() => {
    if (current !== drop.visit.version) onClose();
  }, [current, drop.visit.version, onClose]);
  const v = drop.visit;
  return (
    <dialog
      ref={box}
      onClose={onClose}
      aria-label={`Move ${v.kitchen}`}
      className="m-auto w-full max-w-2xl rounded-lg border border-edge bg-paper p-4 text-ink backdrop:bg-black/40"
    >
      <p className="mb-3 font-bold">
        {v.customer}, {v.kitchen}
      </p>
      <MoveForm
        visitId={v.id}
        version={v.version}
        technicians={technicians}
        defaults={{
          technicianId: drop.technicianId,
          date: drop.date,
          from: timeIn(v.startsAt, v.timeZone),
          minutes: String(Math.round((v.endsAt - v.startsAt) / 60_000)),
        }}
      />
      <Button look="quiet" className="mt-3" onClick={() => box.current?.close()}>
        Keep it where it was
      </Button>
    </dialog>
  );
}
