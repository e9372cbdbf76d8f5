import type { ReactNode } from 'react';
import type { Aspect } from '@/lib/core/findings/grades';
import { AirPathDrawing } from './air-path';
import { CoilDrawing } from './coil';
import { DrainDrawing } from './drain';
import { FanDrawing } from './fan';
import { GasketDrawing } from './gasket';
import { IceDrawing } from './ice';
import { FloatDrawing, ScaleDrawing } from './water';

/** Dirt on the evaporator's fins is drawn as on the condenser's. */
const EvaporatorCoil = ({ grade }: { grade: number }) => <CoilDrawing grade={[0, 1, 3, 4][grade] ?? 0} />;

const DRAWINGS: Record<Aspect, (props: { grade: number }) => ReactNode> = {
  coil: CoilDrawing,
  condenser_fan: FanDrawing,
  air_path: AirPathDrawing,
  ice: IceDrawing,
  evaporator_coil: EvaporatorCoil,
  evaporator_fan: FanDrawing,
  drain: DrainDrawing,
  gasket: GasketDrawing,
  scale: ScaleDrawing,
  float: FloatDrawing,
};

/** A small drawing of a grade; the words beside it say the same. `grade` is the index in its list, 0 the best. */
export function GradeDrawing({ aspect, grade, small = false }: { aspect: Aspect; grade: number; small?: boolean }) {
  const Drawing = DRAWINGS[aspect];
  return (
    <svg viewBox="0 0 64 48" className={`${small ? 'h-8 w-11' : 'h-12 w-16'} shrink-0 text-ink`} aria-hidden="true" focusable="false">
      <Drawing grade={grade} />
    </svg>
  );
}
