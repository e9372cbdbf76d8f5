'use client';

import { followHabits, type Habits } from '@/lib/core/measures/habits';

/** Stands before what writes dates: in the browser they are written as on the server. */
export function WrittenAs({ habits }: { habits: Habits }) {
  followHabits(habits);
  return null;
}
