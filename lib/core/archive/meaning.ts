import { inWords } from './in-words';

/** What stands in a column, in words: what the schema says, else what follows from its name and where it points. */
export type ColumnFacts = { name: string; comment: string; pointsTo: string | null; members: readonly string[] | null; picture: boolean };

/** What many tables have, said once. */
const COMMON: Readonly<Record<string, string>> = {
  id: 'Its own name, never used twice.',
  version: 'Counts its changes.',
  createdAt: 'When it came on file.',
  updatedAt: 'When it last changed.',
  archivedAt: 'When it was taken out of use; empty while it is on file.',
  at: 'When it happened.',
  by: 'Who did it.',
  note: 'What somebody wrote beside it.',
  notes: 'What somebody wrote beside it.',
  reason: 'Why, in words.',
  sort: 'Its place in lists.',
  name: 'What it is called.',
  label: 'What it is called.',
  active: 'Whether it is in use.',
  lat: 'Degrees north.',
  lng: 'Degrees east.',
};

const UNITS: readonly [RegExp, string][] = [
  [/PaGauge$/, 'pascal over the air around'],
  [/Pa$/, 'pascal'],
  [/PerHour$/, 'shop’s currency per hour'],
  [/PerKm$/, 'shop’s currency per kilometre'],
  [/PricePerKwh$/, 'shop’s currency per kilowatt-hour'],
  [/Kg$/, 'kilogram'],
  [/Kmh$/, 'kilometre per hour'],
  [/Cents$/, 'hundredths of the currency'],
  [/Minutes$|^minutes$/, 'minutes'],
  [/Weeks$/, 'weeks'],
  [/Days$/, 'days'],
  [/Months$/, 'months'],
  [/[a-z]K$/, 'kelvin'],
  [/[a-z]W$/, 'watt'],
  [/[a-z]M$/, 'metre'],
  [/[a-z]A$/, 'ampere'],
];

const sentence = (text: string) => `${text.charAt(0).toUpperCase()}${text.slice(1)}${/[.?!]$/.test(text) ? '' : '.'}`;

/** One or two sentences, never empty. */
export function meaningOf({ name, comment, pointsTo, members, picture }: ColumnFacts): string {
  const unit = UNITS.find(([pattern]) => pattern.test(name))?.[1];
  const said =
    comment ||
    COMMON[name] ||
    (pointsTo ? `Which ${pointsTo} it belongs to` : inWords(unit ? name.replace(/(Pa)?Gauge$|(Pa|Kg|Kmh|K|W|M|A)$/, '') || name : name));
  return [
    sentence(said),
    picture ? 'The file of this name in the archive.' : '',
    unit && !comment.includes(unit) ? `In ${unit}.` : '',
    members ? `One of: ${members.join(', ')}.` : '',
    pointsTo ? `Points to id of ${pointsTo}.` : '',
  ]
    .filter(Boolean)
    .join(' ');
}
