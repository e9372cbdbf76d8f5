import { canBeFiled } from '../entries/bounds';
import { temperatureWords } from '../condenser/words/both-units';
import { FOOD_LIMIT_K } from '../findings/cautions';
import { typedNumber } from '../measures/typed-number';
import { fromOwn, type OwnUnits } from './own-units';

/** Warmer than food gets in a box that stands still, K: 55 °C. Common practice; it only asks. */
const HOT_FOOD_K = 328.15;
/** 41 °F and 5 °C are the limit itself, however they were reckoned. */
const ROUNDING_K = 1e-6;

/** What there is to ask about a food temperature before a warning is written down; null where nothing is odd. */
export function foodQuestion(foodK: number): string | null {
  if (foodK > HOT_FOOD_K + ROUNDING_K)
    return `${temperatureWords(foodK)} is hotter than food gets in a box that stands still: is the point in the right place?`;
  if (foodK <= FOOD_LIMIT_K + ROUNDING_K) return `${temperatureWords(foodK)} is not above 41 °F (5 °C): is the number right?`;
  return null;
}

/** A food temperature as it was typed: kelvin, whether the office would refuse it, and what is asked about it. */
export function foodTyped(text: string, own: OwnUnits): { boxK: number | null; outside: boolean; question: string | null } {
  const typed = typedNumber(text);
  if (typed === null) return { boxK: null, outside: false, question: null };
  const boxK = fromOwn('boxK', typed, own);
  const outside = !canBeFiled('boxK', boxK);
  return { boxK, outside, question: outside ? null : foodQuestion(boxK) };
}
