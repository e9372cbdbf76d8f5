'use client';

import { useRouter } from 'next/navigation';
import { useEffect, useId, useRef, useState, type KeyboardEvent } from 'react';
import { LEAST_LETTERS, searchWords } from '@/lib/core/wording/search-words';

type Hit = { href: string; kind: 'customer' | 'kitchen' | 'unit'; name: string; about: string };
type Room = { href: string; label: string; also: string };

const KIND = { customer: 'Customer', kitchen: 'Kitchen', unit: 'Unit' } as const;
const WAIT_MS = 120;

/** A page fits what is typed where each word of it begins one of the page's own. */
function fitsPage({ label, also }: Room, typed: string): boolean {
  const own = `${label} ${also}`.toLowerCase().split(/[^\p{L}\p{N}]+/u);
  return typed
    .toLowerCase()
    .split(/\s+/)
    .every((w) => own.some((o) => o.startsWith(w)));
}

/** Finds a customer, a kitchen or a unit from any page, by the key “/”; with nothing typed it lists all pages. */
export function Finder({ rooms }: { rooms: Room[] }) {
  const router = useRouter();
  const box = useRef<HTMLDialogElement>(null);
  const field = useRef<HTMLInputElement>(null);
  const list = useId();
  const [q, setQ] = useState('');
  const [found, setFound] = useState<{ q: string; hits: Hit[]; near?: boolean; failed?: boolean } | null>(null);
  const [at, setAt] = useState(0);
  const enough = searchWords(q).length > 0;

  useEffect(() => {
    const open = (e: globalThis.KeyboardEvent) => {
      const typing = e.target instanceof HTMLElement && (e.target.isContentEditable || /^(INPUT|TEXTAREA|SELECT)$/.test(e.target.tagName));
      if ((e.key !== '/' || typing) && !(e.key === 'k' && (e.ctrlKey || e.metaKey))) return;
      if (document.querySelector('dialog[open]')) return;
      e.preventDefault();
      box.current?.showModal();
      field.current?.select();
    };
    window.addEventListener('keydown', open);
    return () => window.removeEventListener('keydown', open);
  }, []);

  useEffect(() => {
    if (!enough) return;
    const stop = new AbortController();
    const timer = setTimeout(() => {
      fetch(`/api/find?q=${encodeURIComponent(q)}`, { signal: stop.signal })
        .then(async (r) => {
          if (!r.ok) throw new Error('not found');
          const { hits, near } = (await r.json()) as { hits: Hit[]; near: boolean };
          setFound({ q, hits, near });
          setAt(0);
        })
        .catch(() => {
          if (!stop.signal.aborted) setFound({ q, hits: [], failed: true });
        });
    }, WAIT_MS);
    return () => {
      stop.abort();
      clearTimeout(timer);
    };
  }, [q, enough]);

  const fits = rooms.filter((r) => fitsPage(r, q)).map(({ href, label }) => ({ href, label }));
  const options = enough
    ? [
        ...fits.map((r) => ({ ...r, kind: 'Page', about: '' })),
        ...(found?.hits ?? []).map((h) => ({ href: h.href, label: h.name, kind: KIND[h.kind], about: h.about })),
      ]
    : fits.map((r) => ({ ...r, kind: 'Page', about: '' }));
  const go = (href: string) => {
    box.current?.close();
    setQ('');
    router.push(href);
  };
  const onKey = (e: KeyboardEvent) => {
    if (e.key === 'ArrowDown' || e.key === 'ArrowUp') {
      e.preventDefault();
      setAt((at + (e.key === 'ArrowDown' ? 1 : -1) + options.length) % Math.max(1, options.length));
    }
    const chosen = options[at];
    if (e.key === 'Enter' && chosen) {
      e.preventDefault();
      go(chosen.href);
    }
  };
  return (
    <>
      <button
        type="button"
        onClick={() => {
          box.current?.showModal();
          field.current?.select();
        }}
        className="inline-flex min-h-10 items-center gap-2 rounded-md border border-edge bg-sheet px-3 text-ink hover:border-cold"
      >
        Find or go
        <kbd className="rounded border border-line px-1 text-xs text-soft max-sm:hidden" aria-hidden="true">
          /
        </kbd>
      </button>
      <dialog
        ref={box}
        aria-label="Find or go"
        className="mx-auto mt-[8vh] w-[min(40rem,calc(100vw-1.5rem))] rounded-lg border border-edge bg-paper p-4 text-base text-ink backdrop:bg-black/40"
      >
        <div className="flex items-center gap-2">
          <input
            ref={field}
            value={q}
            onChange={(e) => {
              setQ(e.target.value);
              setAt(0);
            }}
            onKeyDown={onKey}
            role="combobox"
            aria-expanded="true"
            aria-controls={list}
            aria-activedescendant={options.length > 0 ? `${list}-${at}` : undefined}
            aria-label="What to find"
            placeholder="Name, street, contact, phone, tag or serial"
            autoComplete="off"
            className="min-h-11 w-full rounded-md border border-edge bg-sheet px-3"
          />
          <button type="button" onClick={() => box.current?.close()} className="min-h-11 px-2 font-bold text-cold">
            Close
          </button>
        </div>
        <p role="status" className="mt-2 text-sm text-soft">
          {!enough
            ? q.trim() === ''
              ? 'All pages'
              : `Type at least ${LEAST_LETTERS} letters.`
            : found?.failed
              ? 'The office could not be reached.'
              : found?.q !== q
                ? 'Looking …'
                : found.hits.length === 0
                  ? 'Nothing on file has that on it. Try a shorter piece of it.'
                  : found.near
                    ? 'Nothing on file has all of that on it. Nearest to it:'
                    : ''}
        </p>
        <ul id={list} role="listbox" aria-label="What was found" className="mt-1 max-h-[60vh] overflow-y-auto">
          {options.map((o, i) => (
            <li
              key={o.href}
              id={`${list}-${i}`}
              role="option"
              aria-selected={i === at}
              onMouseMove={() => setAt(i)}
              onClick={() => go(o.href)}
              className={`flex min-h-11 cursor-pointer items-baseline gap-3 rounded-md px-3 py-2 ${i === at ? 'bg-cold-wash' : ''}`}
            >
              <span className="w-20 shrink-0 text-sm text-soft">{o.kind}</span>
              <span className="min-w-0">
                <b>{o.label}</b> <span className="text-sm text-soft">{o.about}</span>
              </span>
            </li>
          ))}
        </ul>
      </dialog>
    </>
  );
}
