// A date of a kitchen is never an instant sliced in UTC, and what people read is written in one room each: dates in
// lib/core/calendar, figures in lib/core/measures/figures.ts. So they look alike wherever they stand, and follow the shop.
// no-restricted-syntax does not add up over blocks, so whoever sets it for lib or app spreads these in.

const WHERE = 'Written for people in one room: dates in lib/core/calendar/when.ts, figures in lib/core/measures/figures.ts.';

export const written = [
  {
    selector:
      'CallExpression > MemberExpression.callee[property.name=/^(slice|substring|substr|split|replace)$/] > CallExpression.object[callee.property.name=/^(toISOString|toJSON)$/]',
    message:
      'An instant cut in UTC is no date of a kitchen: todayIn or wallClock for an instant, toLocalDate for a date column (lib/core/calendar).',
  },
  {
    selector: ':matches(NewExpression, CallExpression)[callee.object.name="Intl"][callee.property.name=/Format$|^PluralRules$/]',
    message: WHERE,
  },
  { selector: 'CallExpression[callee.property.name=/^toLocale(Date|Time)?String$/]', message: WHERE },
  {
    selector: 'ImportDeclaration[source.value=/^date-fns(\\u002f|$)/] ImportSpecifier[imported.name=/^(format|intlFormat|formatDistance)/]',
    message: WHERE,
  },
];
