'use client';

import * as Plot from '@observablehq/plot';
import { useEffect, useRef, useState, type ReactNode } from 'react';

/** What a chart takes its colours from: the page's own tokens, so that dark mode and print follow. */
export const INK = {
  ink: 'var(--ink)', soft: 'var(--soft)', line: 'var(--line)', edge: 'var(--edge)', cold: 'var(--cold)', wash: 'var(--cold-wash)', alarm: 'var(--alarm)',
  warm: 'var(--heat-4)', warmer: 'var(--heat-3)', sheet: 'var(--sheet)',
} as const; // prettier-ignore

type Build = (width: number) => Plot.PlotOptions;

/**
 * A chart drawn at the width it has, with its reading for those who do not see it and the table it stands for.
 * `build` must not change from one render to the next unless its data do.
 */
export function Chart({ label, caption, build, table }: { label: string; caption?: ReactNode; build: Build; table: ReactNode }) {
  const box = useRef<HTMLDivElement>(null);
  const [width, setWidth] = useState(0);
  useEffect(() => {
    const node = box.current;
    if (!node) return;
    const watch = new ResizeObserver(([entry]) => setWidth(Math.round(entry?.contentRect.width ?? 0)));
    watch.observe(node);
    return () => watch.disconnect();
  }, []);
  useEffect(() => {
    const node = box.current;
    if (!node || width < 200) return;
    const drawn = Plot.plot({
      ...build(width),
      width,
      style: { background: 'transparent', color: 'var(--ink)', fontFamily: 'var(--font-sans)', fontSize: '13px', overflow: 'visible' },
    });
    drawn.setAttribute('aria-hidden', 'true');
    node.replaceChildren(drawn);
    return () => drawn.remove();
  }, [build, width]);
  return (
    <figure className="m-0">
      <div ref={box} role="img" aria-label={label} className="min-h-48 w-full overflow-hidden" />
      {caption ? <figcaption className="mt-1 text-sm text-soft">{caption}</figcaption> : null}
      <details className="mt-2">
        <summary className="text-sm font-bold text-cold">The numbers as a table</summary>
        <div className="mt-2">{table}</div>
      </details>
    </figure>
  );
}
