import { safetyClassOf } from '@/lib/core/refrigerants/catalogue';
import { refrigerantLabel, SAFETY_WORDS } from '@/lib/core/refrigerants/naming';

/** "R-290 A3": the refrigerant with its safety class, in alarm where it burns. */
export function RefrigerantName({ id }: { id: string }) {
  const safetyClass = safetyClassOf(id);
  const burns = safetyClass !== null && safetyClass !== 'A1';
  return (
    <span className="whitespace-nowrap">
      {refrigerantLabel(id)}{' '}
      {safetyClass ? (
        <span className={`text-sm ${burns ? 'font-bold text-alarm' : 'text-soft'}`} title={SAFETY_WORDS[safetyClass]}>
          {safetyClass}
          {burns ? ` ${SAFETY_WORDS[safetyClass]}` : ''}
        </span>
      ) : null}
    </span>
  );
}
