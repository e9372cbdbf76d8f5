import { counted } from '@/lib/core/wording/counted';

/** The units that a sum leaves out and why: "2 units not looked at yet, 1 cooled by water"; empty where it has all. */
export function leftOut({ unseen, water }: { unseen: number; water: number }): string {
  const parts = [unseen > 0 ? `${counted(unseen, 'unit')} not looked at yet` : '', water > 0 ? `${water} cooled by water` : ''];
  return parts.filter(Boolean).join(', ');
}
