// A date of a kitchen is never an instant sliced in UTC, and dates are written for people in one room: lib/core/calendar.
// no-restricted-syntax does not add up over blocks, so whoever sets it for lib or app spreads these in.

export const dates = [
  {
    selector:
      'CallExpression > MemberExpression.callee[property.name=/^(slice|substring|substr|split|replace)$/] > CallExpression.object[callee.property.name=/^(toISOString|toJSON)$/]',
    message:
      'An instant cut in UTC is no date of a kitchen: todayIn or wallClock for an instant, toLocalDate for a date column (lib/core/calendar).',
  },
  {
    selector: 'NewExpression[callee.object.name="Intl"][callee.property.name="DateTimeFormat"]',
    message: 'Dates are written in one room: lib/core/calendar/when.ts.',
  },
  {
    selector: 'CallExpression[callee.property.name=/^toLocale(Date|Time)String$/]',
    message: 'Dates are written in one room: lib/core/calendar/when.ts.',
  },
];
