import type { Aspect } from '@/lib/core/findings/grades';
import { CoilDrawing } from './coil';
import { DrainDrawing } from './drain';
import { FanDrawing } from './fan';
import { GasketDrawing } from './gasket';
import { IceDrawing } from './ice';

/** A small drawing of a grade; the words beside it say the same. `grade` is the index in its list, 0 the best. */
export function GradeDrawing({ aspect, grade }: { aspect: Aspect; grade: number }) {
  const Drawing = { coil: CoilDrawing, ice: IceDrawing, drain: DrainDrawing, fan: FanDrawing, gasket: GasketDrawing }[aspect];
  return (
    <svg viewBox="0 0 64 48" className="h-12 w-16 shrink-0 text-ink" aria-hidden="true" focusable="false">
      <Drawing grade={grade} />
    </svg>
  );
}
