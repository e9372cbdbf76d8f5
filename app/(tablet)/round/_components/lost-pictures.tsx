import { counted } from '@/lib/core/wording/counted';
import { useSnapshot } from '../_lib/tablet-context';
import { to } from '../_lib/use-place';
import { ChipLink } from './touch';
import { fullKitchenName } from '@/lib/core/wording/kitchen-name';

/** Pictures that are nowhere any more are said to be lost, with the way to take them again. */
export function LostPictures() {
  const lost = useSnapshot((s) => s.lostPhotos);
  const visits = useSnapshot((s) => s.visits);
  if (lost.length === 0) return null;
  const units = [...new Set(lost.map((l) => `${l.visitId} ${l.unitId ?? ''}`))].flatMap((key) => {
    const [visitId, unitId] = key.split(' ');
    const visit = visits.find((v) => v.id === visitId);
    const unit = visit?.units.find((u) => u.id === unitId);
    return visit && unit ? [{ href: to.unit(visit.id, unit.id, 'look'), label: `${fullKitchenName(visit.kitchen)}, ${unit.name}` }] : [];
  });
  return (
    <div role="alert" className="rounded-md border-2 border-alarm bg-alarm-wash p-3">
      <p>
        <b className="text-alarm">{counted(lost.length, 'picture is', 'pictures are')} lost.</b> The office was set back to a backup that
        does not have {lost.length === 1 ? 'it' : 'them'}, and this tablet has let {lost.length === 1 ? 'it' : 'them'} go. Take{' '}
        {lost.length === 1 ? 'it' : 'them'} again if you can.
      </p>
      <p className="mt-2 flex flex-wrap gap-2">
        {units.map((u) => (
          <ChipLink key={u.href} href={u.href}>
            {u.label}
          </ChipLink>
        ))}
      </p>
    </div>
  );
}
