import { configureCoercion } from '@conform-to/zod/v4/future';
import { typedNumber } from '../../core/measures/typed-number';

/**
 * A form's schema over what a form sends: texts. Numbers are read as people type them; what the app wrote into a hidden field itself
 * may stand as 2.5e-7. Blanks are no nought.
 */
export const { coerceFormValue: asTyped } = configureCoercion({
  type: { number: (text) => typedNumber(text) ?? (text.trim() === '' ? NaN : Number(text)) },
});
