import { REFRIGERANTS } from '@/lib/core/refrigerants/catalogue';
import { refrigerantLabel, SAFETY_WORDS } from '@/lib/core/refrigerants/naming';

/** "R-290 A3": the refrigerant with its safety class, in alarm where it burns. */
export function RefrigerantName({ id }: { id: string }) {
  const info = REFRIGERANTS[id];
  const burns = info && info.safetyClass !== 'A1';
  return (
    <span className="whitespace-nowrap">
      {refrigerantLabel(id)}{' '}
      {info ? (
        <span className={`text-sm ${burns ? 'font-bold text-alarm' : 'text-soft'}`} title={SAFETY_WORDS[info.safetyClass]}>
          {info.safetyClass}
          {burns ? ` ${SAFETY_WORDS[info.safetyClass]}` : ''}
        </span>
      ) : null}
    </span>
  );
}
