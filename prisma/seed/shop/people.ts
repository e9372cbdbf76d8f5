import { STORED_HOURS } from '../../../lib/database/stored/shop';
import signIns from '../sign-ins.json';
import type { RandomStream } from '../../../lib/core/numerics/random';
import type { Prisma } from '../../../lib/database/generated/client';
import { psiToPascal } from '../../../lib/core/measures';
import { personRow, weeklyHours } from '../rows';

export type SignIn = (typeof signIns)[number];
export const SIGN_INS: readonly SignIn[] = signIns;

/** What each van carries and may do; in the order of the sign-ins' technicians. */
const VANS = [
  {
    skills: ['flammable', 'roof'],
    gaugeGrade: '1A',
    gaugeSpanPa: psiToPascal(500),
    homeLat: 39.7201,
    homeLng: -105.0211,
    phone: '+1 555 0301',
    shift: ['06:30', '15:30'],
  },
  {
    skills: ['flammable'],
    gaugeGrade: 'A',
    gaugeSpanPa: psiToPascal(500),
    homeLat: 39.7705,
    homeLng: -104.9328,
    phone: '+1 555 0302',
    shift: ['07:00', '16:00'],
  },
  {
    skills: ['flammable', 'roof'],
    gaugeGrade: '2A',
    gaugeSpanPa: psiToPascal(800),
    homeLat: 39.7398,
    homeLng: -105.0832,
    phone: '+1 555 0303',
    shift: ['08:00', '17:00'],
  },
] as const;

/** People with their given password hashes (by e-mail). */
export function people(hashes: Record<string, string>, random: RandomStream): Prisma.UserCreateManyInput[] {
  let van = 0;
  return SIGN_INS.map((s) => {
    const base = {
      id: random.uuid(),
      email: s.email,
      name: s.name,
      role: s.role as Prisma.UserCreateManyInput['role'],
      passwordHash: hashes[s.email] ?? '',
    };
    if (s.role !== 'technician') return personRow({ ...base, skills: [], shifts: [] });
    const { shift, skills, ...rest } = VANS[van++ % VANS.length] as (typeof VANS)[number];
    return personRow({ ...base, ...rest, skills: [...skills], shifts: STORED_HOURS.write(weeklyHours(shift[0], shift[1])) });
  });
}
