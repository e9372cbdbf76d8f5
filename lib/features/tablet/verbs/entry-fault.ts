import 'server-only';
import type { core } from 'zod';
import { FIELD_INFO, type ReadingField } from '../../../core/tablet';

const OUTSIDE = 'is outside what can be kept';
const FAULT_TEXT: Partial<Record<core.$ZodIssue['code'], string>> = {
  invalid_type: 'is missing or of another sort',
  invalid_value: 'is none of what the office knows',
  unrecognized_keys: 'holds more than the office knows',
  too_big: 'is too long',
  too_small: 'is missing or too short',
};
/** What was asked, where something else came. */
const ASKED: Record<string, string> = { boolean: 'is neither yes nor no', number: 'is missing or not a number' };

/** What is wrong with an entry, for whoever wrote it and whoever looks at it in the office. */
export function entryFault(issue: core.$ZodIssue | undefined): string {
  if (!issue) return 'The entry cannot be read.';
  if (issue.code === 'custom') return `The entry cannot be filed. ${issue.message}`;
  const isNumber = (issue.code === 'too_big' || issue.code === 'too_small') && issue.origin === 'number';
  const why = issue.code === 'invalid_type' ? ASKED[issue.expected] : isNumber ? OUTSIDE : undefined;
  return `The entry cannot be filed: ${nameOf(issue.path)} ${why ?? FAULT_TEXT[issue.code] ?? 'cannot be read'}.`;
}

/** The field's name on the screens; of others, their own name as words. */
function nameOf(path: readonly PropertyKey[]): string {
  const last = path.filter((p): p is string => typeof p === 'string').at(-1);
  if (!last) return 'what it says';
  const field = FIELD_INFO[last as ReadingField] as { label: string } | undefined;
  return field ? field.label.toLowerCase() : `“${last.replace(/([a-z])([A-Z])/g, '$1 $2').toLowerCase()}”`;
}
