import { useEffect, useLayoutEffect, useRef } from 'react';

/** Closes on the tablet's own way back, where the browser tells it. Not in TypeScript's library yet. */
type Watcher = { onclose: (() => void) | null; destroy: () => void };
type WithWatcher = typeof globalThis & { CloseWatcher?: new () => Watcher };

/**
 * A dialog over the round, outside of #round, with the page behind it out of reach.
 * Not `showModal`: that has the whole page worked out again before the dialog is drawn. Here it is drawn first.
 */
export function useModal(onDone: () => void) {
  const dialog = useRef<HTMLDialogElement>(null);
  const done = useRef(onDone);
  useEffect(() => {
    done.current = onDone;
  });
  // Before the next key comes.
  useLayoutEffect(() => {
    const d = dialog.current;
    const page = document.getElementById('round');
    if (!d || !page) return;
    d.show();
    const drawn = requestAnimationFrame(() => setTimeout(() => (page.inert = d.open)));
    const { CloseWatcher } = globalThis as WithWatcher;
    const watcher = CloseWatcher ? new CloseWatcher() : null;
    if (watcher) watcher.onclose = () => done.current();
    return () => {
      watcher?.destroy();
      cancelAnimationFrame(drawn);
      page.inert = false;
      // Gives the focus back to what was pressed.
      d.close();
    };
  }, []);
  return dialog;
}
