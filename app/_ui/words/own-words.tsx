'use client';

import type { ReactNode } from 'react';
import { WhoseWords } from '../forms/use-kept-words';

/** Under it, forms keep what this person types in this browser. */
export function OwnWords({ person, children }: { person: string; children: ReactNode }) {
  return <WhoseWords value={person}>{children}</WhoseWords>;
}
