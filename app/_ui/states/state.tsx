/** A state is a word with a shape, never a colour alone. */

const SHAPES = {
  late: 'M8 1 15 8 8 15 1 8Z',
  now: 'M8 2a6 6 0 1 1 0 12A6 6 0 0 1 8 2Z',
  later: 'M8 2a6 6 0 1 1 0 12A6 6 0 0 1 8 2Zm0 2.2a3.8 3.8 0 1 0 0 7.6 3.8 3.8 0 0 0 0-7.6Z',
  done: 'M2 8.4 4 6.3l2.6 2.6L12.2 3 14 5l-7.4 7.8Z',
  off: 'M3.2 2 8 6.8 12.8 2 14 3.2 9.2 8l4.8 4.8-1.2 1.2L8 9.2 3.2 14 2 12.8 6.8 8 2 3.2Z',
  ask: 'M8 1.5 14.8 14H1.2Z',
  held: 'M3 3h10v10H3Z',
} as const;
export type Shape = keyof typeof SHAPES;

const TONE = { alarm: 'text-alarm', ink: 'text-ink', soft: 'text-soft', cold: 'text-cold' } as const;

/** How a state looks, and what it is called. */
export type Look = { shape: Shape; tone: keyof typeof TONE };
export type Mark = Look & { label: string };

export function State({ shape, tone = 'ink', children }: { shape: Shape; tone?: keyof typeof TONE; children: React.ReactNode }) {
  return (
    <span className={`state ${TONE[tone]}`}>
      <svg viewBox="0 0 16 16" aria-hidden="true">
        <path d={SHAPES[shape]} />
      </svg>
      {children}
    </span>
  );
}
