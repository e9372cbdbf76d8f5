/** Our mark: a rime crystal's half over a book's spine. */
export function Mark({ className = 'size-7' }: { className?: string }) {
  return (
    <svg viewBox="0 0 32 32" className={className} aria-hidden="true" focusable="false">
      <g fill="none" stroke="currentColor" strokeWidth="2.4" strokeLinecap="round">
        <path d="M16 3v26" />
        <path d="M16 9l-5-4M16 9l5-4M16 17 6 11M16 17l10-6M16 25 5 19M16 25l11-6" />
      </g>
    </svg>
  );
}
