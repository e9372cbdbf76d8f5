type Work = { unit: string; what: string; soon: string };

/** Work that is open, each with how soon. */
export const WorkList = ({ work, className }: { work: readonly Work[]; className: string }) => (
  <ul className={`flex flex-col gap-2 ${className}`}>
    {work.map((w, i) => (
      <li key={i} className="rounded-lg border border-edge bg-sheet p-3">
        <b>{w.soon}</b>
        <span className="block">
          {w.unit ? `${w.unit}: ` : ''}
          {w.what}
        </span>
      </li>
    ))}
  </ul>
);

/** What was found and done at a unit, then when it comes next. */
export const UnitLines = ({ lines, next }: { lines: readonly string[]; next: readonly string[] }) => (
  <>
    {lines.map((line, i) => (
      <p key={i} className="mt-1">
        {line}
      </p>
    ))}
    {next.map((line) => (
      <p key={line} className="mt-1 text-soft">
        {line}
      </p>
    ))}
  </>
);
