'use client';

import { usePathname, useSearchParams } from 'next/navigation';
import { createContext, useContext, useEffect, useImperativeHandle, useRef, useState, type RefObject } from 'react';
import { fieldsAsCame, formKey, formVersion, putBack, readFields } from './form-fields';
import { changedFields, dropKept, readKept, toPutBack, writeKept, type KeptFields, type Values } from './kept-words';

/** Whose words are kept: the id of who is signed in. Where nobody is, nothing is kept. */
export const WhoseWords = createContext<string | null>(null);

/** What a form can be told about its words. */
export type Keeper = { saved: () => void };

/** A choice put back may bring further fields; after this it brings none. */
const SETTLE_MS = 3_000;

/** Puts words back, those too of fields that a choice put back brings only once it is drawn. @returns what ends the waiting for these */
function putBackAsDrawn(form: HTMLFormElement, fields: Values): () => void {
  let missing = putBack(form, fields);
  const watch = new MutationObserver(() => {
    missing = putBack(form, missing);
  });
  if (Object.keys(missing).length > 0) watch.observe(form, { childList: true, subtree: true });
  setTimeout(() => watch.disconnect(), SETTLE_MS);
  return () => watch.disconnect();
}

/** A form that is folded away shows what came back. */
function openBoxesAround(form: HTMLFormElement) {
  for (let box = form.parentElement?.closest('details'); box; box = box.parentElement?.closest('details')) box.open = true;
}

/**
 * Keeps what is typed into a form in this browser, by person, page and record, until it is saved; puts it back when the
 * form is opened again. @returns whether words were put back, and the way to let go of them
 */
export function useKeptWords(ref: RefObject<HTMLFormElement | null>, keeper: RefObject<Keeper | null>) {
  const person = useContext(WhoseWords);
  const page = `${usePathname()}?${useSearchParams().toString()}`;
  const [back, setBack] = useState<{ changedSince: boolean } | null>(null);
  const was = useRef<Values | null>(null);
  const drop = useRef<() => void>(() => undefined);
  const saved = useRef<() => void>(() => undefined);
  useImperativeHandle(keeper, () => ({ saved: () => saved.current() }), []);

  useEffect(() => {
    const form = ref.current;
    if (!form || person === null) return;
    const key = `${person} ${page} ${formKey(form)}`;
    const version = formVersion(form);
    const kept = readKept(key, Date.now());
    const before: Values = (was.current ??= fieldsAsCame(form));
    let keptFields: KeptFields = kept?.fields ?? {};
    let stopWaiting = () => {};

    let dropped = false;
    const write = () => {
      if (dropped) return;
      keptFields = changedFields(before, readFields(form), keptFields);
      writeKept(key, { at: Date.now(), version, fields: keptFields });
    };
    const letGo = () => {
      stopWaiting();
      keptFields = {};
      dropKept(key);
    };
    const typedAlready = Object.keys(changedFields(before, readFields(form), {}));
    if (kept) {
      const { fields, changedSince } = toPutBack(kept, before, version);
      for (const name of typedAlready) delete fields[name];
      // What the browser itself had put back already was not on file: it stays among what is kept.
      for (const [name, field] of Object.entries(kept.fields)) if (!(name in fields) && version === kept.version) before[name] = field.was;
      stopWaiting = putBackAsDrawn(form, fields);
      openBoxesAround(form);
      setBack({ changedSince });
    }
    if (typedAlready.length > 0) write();

    // What React makes of it stands in the page a moment later.
    const writeSoon = () => {
      write();
      setTimeout(write, 0);
    };
    const TYPED = ['input', 'change', 'click'] as const;
    for (const event of TYPED) form.addEventListener(event, writeSoon);
    drop.current = () => {
      dropped = true;
      letGo();
    };
    saved.current = () => {
      letGo();
      Object.assign(before, readFields(form));
      setBack(null);
    };
    return () => {
      stopWaiting();
      for (const event of TYPED) form.removeEventListener(event, writeSoon);
    };
  }, [ref, person, page]);

  return { back, drop: () => drop.current() };
}
