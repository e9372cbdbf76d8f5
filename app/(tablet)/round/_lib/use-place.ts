import { useEffect, useState } from 'react';
import { WORK_STEPS, type WorkStep } from '@/lib/core/findings/cautions';
import { SEALED_STEPS, type SealedStep } from '@/lib/core/sealed/steps';

/** Where in the round one is: the part of the address after #, so that no page is ever asked of the server. */
export type Place =
  | { at: 'round' }
  | { at: 'visit' | 'close' | 'add-unit'; visitId: string }
  | { at: 'unit'; visitId: string; unitId: string; step: WorkStep | null }
  | { at: 'sealed'; visitId: string; unitId: string; step: SealedStep | null }
  | { at: 'tag'; code: string }
  | { at: 'entries' };

function placeOnVisit(visitId: string, [what, unitId, step, more]: readonly string[]): Place {
  if (what === 'unit' && unitId && step === 'sealed')
    return { at: 'sealed', visitId, unitId, step: SEALED_STEPS.find((s) => s === more) ?? null };
  if (what === 'unit' && unitId) return { at: 'unit', visitId, unitId, step: WORK_STEPS.find((s) => s === step) ?? null };
  if (what === 'close' || what === 'add-unit') return { at: what, visitId };
  return { at: 'visit', visitId };
}

function readPlace(hash: string): Place {
  const [first = '', id = '', ...rest] = hash.replace(/^#\/?/, '').split('/').map(decodeURIComponent);
  if (first === 'visit' && id) return placeOnVisit(id, rest);
  if (first === 'tag') return { at: 'tag', code: id };
  if (first === 'entries') return { at: 'entries' };
  return { at: 'round' };
}

export const to = {
  round: '#/',
  visit: (id: string) => `#/visit/${id}`,
  unit: (visitId: string, unitId: string, step?: WorkStep) => `#/visit/${visitId}/unit/${unitId}${step ? `/${step}` : ''}`,
  sealed: (visitId: string, unitId: string, step?: SealedStep) => `#/visit/${visitId}/unit/${unitId}/sealed${step ? `/${step}` : ''}`,
  close: (id: string) => `#/visit/${id}/close`,
  addUnit: (id: string) => `#/visit/${id}/add-unit`,
  tag: (code = '') => `#/tag/${encodeURIComponent(code)}`,
  entries: '#/entries',
  /** Not of the round: the office's own page. */
  signIn: '/sign-in',
};

/** At once: the browser itself would tell of it a picture or two later. */
export function go(hash: string): void {
  if (hash === window.location.hash) return;
  window.history.pushState(null, '', hash);
  window.dispatchEvent(new Event('hashchange'));
}

/** Links of the round go the same short way. */
export function followLinks(): () => void {
  const follow = (e: MouseEvent) => {
    const hash = e.target instanceof Element ? e.target.closest('a')?.getAttribute('href') : null;
    if (!hash?.startsWith('#/') || e.defaultPrevented || e.button !== 0 || e.ctrlKey || e.metaKey || e.shiftKey || e.altKey) return;
    e.preventDefault();
    go(hash);
  };
  document.addEventListener('click', follow);
  return () => document.removeEventListener('click', follow);
}

export function usePlace(): Place {
  const [place, setPlace] = useState(() => readPlace(window.location.hash));
  useEffect(() => {
    const look = () => {
      setPlace(readPlace(window.location.hash));
      window.scrollTo(0, 0);
    };
    window.addEventListener('hashchange', look);
    return () => window.removeEventListener('hashchange', look);
  }, []);
  return place;
}
