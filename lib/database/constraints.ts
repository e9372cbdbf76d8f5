import 'server-only';
import { fieldOf } from '../core/typed/closed-set';

/**
 * Name of the database rule that refused a write, or null. Prisma passes PostgreSQL's own error through in
 * several shapes (unique: P2002; exclusion and raised checks: P2039 with the SQLSTATE in the text).
 */
export function refusedBy(error: unknown): string | null {
  if (!(error instanceof Error)) return null;
  const names = [
    'visit_technician_no_overlap',
    'visit_low_side_looked_at',
    'visit_two_grades',
    'visit_task_one_open',
    'finding_one_current',
    'reading_one_current',
    'Entry_pkey',
    'Entry_deviceId_deviceSeq_key',
    'unit_name_in_kitchen',
    'Unit_tag_key',
    'Customer_name_key',
    'Kitchen_customerId_name_key',
    'User_email_key',
    'ArchiveRun_one_at_a_time',
    'part_counts',
    'part_in_van_pieces',
  ];
  // Its own words last: where we develop, the client shows lines of the program in them, which may name another rule.
  for (const text of [`${safeJson(fieldOf(error, 'meta'))} ${safeJson(error.cause)}`, error.message]) {
    const name = names.find((n) => text.includes(n));
    if (name) return name;
    if (text.includes('low side not looked at')) return 'visit_low_side_looked_at';
    if (text.includes('a person has set this position')) return 'kitchen_hand_position_stands';
  }
  return null;
}

function safeJson(value: unknown): string {
  try {
    return JSON.stringify(value) ?? '';
  } catch {
    return '';
  }
}
