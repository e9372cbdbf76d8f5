import { isId } from '../ids/is-id';

/** What was done, by the part of an audit's action after its dot. */
export const DONE: Record<string, string> = {
  added: 'Added',
  added_on_visit: 'Put on file at a visit',
  accepted: 'Kept as changed',
  archived: 'Taken out of use',
  asked: 'Asked for',
  away: 'Away',
  away_undone: 'Not away after all',
  change_told: 'Change of the kitchen told',
  change_denied: 'Nothing changed in the kitchen, it was told',
  closed_days_added: 'Closed days added',
  closed_days_removed: 'Closed days removed',
  costs: 'Costs set',
  created: 'Put on file',
  decided: 'Decided what to do with it',
  decision_looked_at: 'Decision looked at again',
  edited: 'Changed',
  ended: 'Sessions ended',
  fetched: 'Fetched',
  forgotten: 'Taken away',
  gone: 'Gone',
  imported: 'Brought in from a sheet',
  import_undone: 'Taken back with its sheet',
  leak_rules: 'Rule on leaks chosen',
  leak_test: 'Leak test noted',
  left: 'Not to be sent again',
  link_sent: 'Link to choose a password sent',
  moved: 'Moved',
  page_made: 'Link to their page made',
  page_revoked: 'Link to their page taken back',
  password_changed: 'Password changed',
  password_chosen: 'Password chosen by a link',
  password_set: 'Password set by the owner',
  policy: 'Policy changed',
  position: 'Position set',
  position_found: 'Position found by its address',
  position_learnt: 'Position learnt from arrivals',
  quarter_sent: 'Summary of a quarter sent',
  replaced: 'Replaced by a file',
  report_look: 'Look of reports changed',
  restored: 'Put back in use',
  revoked: 'Link taken back',
  second_step_off: 'Second step turned off',
  second_step_on: 'Second step turned on',
  second_step_lost: 'Second step turned off on the server',
  second_step_reset: 'Second step turned off by the owner',
  sent: 'Report sent',
  sent_again: 'To be sent again',
  set_up: 'Shop set up',
  step_asked: 'Owners asked for a second step',
  step_not_asked: 'Owners not asked for a second step',
  switched: 'Switched on or off',
  time_off_added: 'Days off added',
  taken_back: 'Line taken back',
  time_off_removed: 'Days off removed',
  weighed: 'Weighed',
  withdrawn: 'No longer in force',
};

/** "Changed" of "unit.edited"; one without words of its own as it is written. */
export function actionWords(action: string): string {
  const part = action.split('.').at(-1) ?? action;
  return DONE[part] ?? part.replaceAll('_', ' ').replace(/^./, (c) => c.toUpperCase());
}

const UNIT_ENDINGS = /(PaGauge|PerKwh|Kg|Json|Id|K|M)$/;
/** "service hours" of `serviceHours`: a field as people say it. */
export const fieldWords = (field: string): string =>
  field
    .replace(UNIT_ENDINGS, '')
    .replace(/([A-Z])/g, ' $1')
    .toLowerCase()
    .trim();

/** What was noted beside a change and reads as words: lists by how many they hold, ids left out. */
export const notedWords = (more: readonly (readonly [name: string, value: unknown])[]): string[] =>
  more.flatMap(([name, value]) => {
    if (value === null || value === '' || isId(String(value))) return [];
    if (Array.isArray(value)) return value.length === 0 ? [] : [`${fieldWords(name.replace(/Ids$/, 's'))}: ${value.length}`];
    return typeof value === 'object' ? [] : [`${fieldWords(name)}: ${valueWords(value)}`];
  });

const LONGEST = 80;
/** A value as it was and is, short. SI, as it stands on file. */
export function valueWords(value: unknown): string {
  if (value === null || value === undefined || value === '') return 'nothing';
  if (typeof value === 'boolean') return value ? 'yes' : 'no';
  // One of a closed set stands on file as "go_on".
  const text =
    typeof value === 'string' ? (/^[a-z]+(?:_[a-z]+)+$/.test(value) ? value.replaceAll('_', ' ') : value) : JSON.stringify(value);
  return text.length > LONGEST ? `${text.slice(0, LONGEST)}…` : text;
}
