import { differenceWords } from '../words/both-units';
import { step, type Evidence, type Rule } from './evidence';

const DAY_MS = 86_400_000;

/** A step in a few days is a fan or a blocked face; fouling is a trend. */
export const jump: Rule = ({ lost, lostSd, reading, history }) => {
  const last = history.filter((h) => h.at < reading.at).at(-1);
  if (!last) return [];
  const days = (reading.at - last.at) / DAY_MS;
  const z = (lost - last.lost) / Math.hypot(lostSd, last.sd);
  const fast = (lost - last.lost) / Math.max(days, 1);
  // A heavily greased coil may lose 1 % a day; three times that is no trend.
  if (z > 2 && fast > 0.03)
    return [
      {
        cause: 'condenser_fan',
        weight: 2.6,
        text: `Jumped by ${Math.round((lost - last.lost) * 100)} % in ${Math.max(1, Math.round(days))} days`,
      },
      { cause: 'coil_fouling', weight: -1, text: 'A jump is not a trend' },
    ];
  if (history.length >= 2 && z > -2 && fast <= 0.03)
    return [
      { cause: 'condenser_fan', weight: -1, text: 'The loss came on over weeks' },
      { cause: 'coil_fouling', weight: 0.5, text: 'The loss came on over weeks' },
    ];
  return [];
};

/** What was seen with the eye. */
export const looked: Rule = ({ reading }) => {
  const out: Evidence[] = [];
  if (reading.fanGrade === 'failed') {
    out.push({ cause: 'condenser_fan', weight: 5, text: 'Condenser fan found failed' });
  } else if (reading.fanGrade === 'worn') out.push({ cause: 'condenser_fan', weight: 1.5, text: 'Condenser fan found worn' });
  else if (reading.fanGrade === 'sound') out.push({ cause: 'condenser_fan', weight: -2.5, text: 'Condenser fan found sound' });
  const coil = reading.coilGrade;
  if (coil === 'bare') out.push({ cause: 'coil_fouling', weight: -3.5, text: 'Coil found bare: nothing to clean' });
  if (coil === 'filmed') out.push({ cause: 'coil_fouling', weight: -1, text: 'Coil found only filmed' });
  if (coil === 'furred') out.push({ cause: 'coil_fouling', weight: 0.8, text: 'Coil found furred' });
  if (coil === 'matted') out.push({ cause: 'coil_fouling', weight: 1.8, text: 'Coil found matted' });
  if (coil === 'packed') out.push({ cause: 'coil_fouling', weight: 2.5, text: 'Coil found packed' });
  return out;
};

/** Warm air coming round again: the coil is judged by the air it gets, but the head is raised all the same. */
export const recirculation: Rule = ({ reading, seen, cleanRiseK }) => {
  if (reading.airInK === undefined || reading.roomAirK === undefined) return [];
  const warmer = reading.airInK - reading.roomAirK;
  const ownExcess = Math.max(0, seen.riseK - cleanRiseK);
  if (warmer < 2.5) return [{ cause: 'recirculation', weight: -2, text: 'Air at the coil is as cool as the room' }];
  const share = warmer / (warmer + ownExcess);
  return [
    {
      cause: 'recirculation',
      weight: step(warmer, 3.5, 2, 2) + 2.5 * share,
      text: `Air at the coil is ${differenceWords(warmer)} warmer than the room`,
    },
  ];
};
