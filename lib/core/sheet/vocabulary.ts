import type { Placement, UnitKind } from '../equipment/build';
import { plainMarks } from '../wording/plain-text';

/** What people write for kinds of unit and places; the first that fits counts. Common usage, from memory. */
const KINDS: [RegExp, UnitKind][] = [
  [/\bwif\b|\bw\/?i[\s-]*(f|frz|frzr|freezer)\b|(walk.?in|cold.?room|\bbox\b).*(frz|freez)|(frz|freez)\w*.*walk.?in/, 'walk_in_freezer'],
  [/\bwic\b|\bw\/?i\b|\bwi[\s-]*c(ooler)?\b|walk.?in|cold.?room|cool.?room/, 'walk_in_cooler'],
  [/\bice\b|\bim\b|\bcuber\b|\bflaker\b/, 'ice_machine'],
  [/drawer|chef.?base|refrigerated base|equip(ment)? stand/, 'drawer_base'],
  [/prep|sandwich|salad.?(bar|table|station|unit|top)|pizza|mega.?top|\bpt\b|make.?(table|line)|\bbain\b/, 'prep_table'],
  [/under.?c(ou)?nt|\bu\/?c\b|low.?boy|work.?top|back.?bar|bottle|\bkeg|beer|draft|draught|wine/, 'undercounter'],
  [/display|merch|deli|glass.?door|open.?air|grab|\bcase\b|show.?case|sushi/, 'display'],
  [/condens|remote|\bcu\b|\brack\b|\brcu\b/, 'remote_condensing_unit'],
  [/reach.?in|\br\/?i\b|\bri[cf]\b|upright|refrig|fridge|freez|\bfrzr?\b|cooler|door|roll.?in|pass.?thr|cabinet/, 'reach_in'],
  [/salad/, 'prep_table'],
];
const PLACES: [RegExp, Placement][] = [
  [/roof(top)?[\s-]*(bar|lounge|cafe)/, 'bar'],
  [/roof|outdoor|outside|exterior|\bpad\b|alley|patio|\bext\b/, 'outdoors'],
  [/fry|fries/, 'fryer'],
  [/char|broil/, 'charbroiler'],
  [/\bwok/, 'wok'],
  [/griddle|flat.?top|plancha|\bgrill\b/, 'griddle'],
  [/bak(e|ing)|pastr|dough|pizza|flour/, 'bakery'],
  [/\bbar\b|\bfoh\b|front|dining|server|wait|counter|lobby|coffee|cafe/, 'bar'],
  [/\bboh\b|back|stor|basement|\bdry\b|dish|pantry|receiv|hall|mech|prep|cellar|\bbsmt\b|commissary|garage/, 'back_of_house'],
  [/line|cook|kitchen|\bkit\b|saut|expo|\bhot\b/, 'line'],
];
/** "REACH – IN", "Reach  in" and "Reach‑in" are one word to whoever writes them. */
const joined = (text: string) =>
  plainMarks(text)
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[–—_]/g, '-')
    .replace(/\s*-\s*/g, '-')
    .replace(/\s+/g, ' ');
function find<T>(list: readonly [RegExp, T][], text: string): T | null {
  const line = joined(text);
  return list.find(([form]) => form.test(line))?.[1] ?? null;
}

export const kindOf = (text: string): UnitKind | null => find(KINDS, text);
/** What a unit's own name gives away: only what stands beside it, never what it is for. */
export const placementInName = (text: string): Placement | null => {
  return /\broof|outdoor|outside|fryer|charbroil|broiler|\bwok|griddle|\bbar\b/i.test(text) ? placementOf(text) : null;
};
export const placementOf = (text: string): Placement | null => find(PLACES, text);
export const isFreezer = (text: string): boolean => /freez|\bfrzr?\b|\bwif\b|\brif\b|low.?temp|\bl\.?t\.?\b/i.test(text);

/** What stands in a sheet where nobody knew. */
export const SAYS_NOTHING =
  /^(\?+|-+|–|—|n\/?a|none|unk(nown)?|tbd|see (tag|plate|nameplate|label)|not? (known|sure|plate|tag)|no (data|plate|tag)|missing|illegible|x+|\.)$/i;

/** The refrigerant of the list that "R404a", "404", "R-290 (propane)" or "CO2" means; null where it cannot be told. */
export function refrigerantIn(text: string, ids: readonly string[]): string | null {
  const t = text.toLowerCase();
  if (/\bco2\b|carbon dioxide/.test(t)) return ids.find((id) => id === 'R744') ?? null;
  if (/propane/.test(t) && !/\d/.test(t)) return ids.find((id) => id === 'R290') ?? null;
  if (/isobutane/.test(t) && !/\d/.test(t)) return ids.find((id) => id === 'R600a') ?? null;
  const m = /(?:^|[^a-z0-9])(?:r|hfc|hfo|hcfc|freon)?[\s.-]*(\d{2,4})\s*-?\s*([a-z]{0,3}(?:\([a-z]\))?)(?![a-z0-9])/.exec(` ${t}`);
  if (!m) return null;
  const plain = (id: string) => id.toLowerCase().replace(/[^a-z0-9]/g, '');
  const exact = ids.find((id) => plain(id) === `r${m[1]}${(m[2] ?? '').replace(/[()]/g, '')}`);
  if (exact) return exact;
  if (m[2]) return null;
  const family = ids.filter((id) => new RegExp(`^r${m[1]}[a-z]+$`).test(plain(id)));
  return family.length === 1 ? (family[0] ?? null) : null;
}
