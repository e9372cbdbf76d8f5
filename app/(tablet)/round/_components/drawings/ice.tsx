const FINS = Array.from({ length: 10 }, (_, i) => 9 + i * 5);
const FIN_LINES = FINS.map((x) => `M${x} 5V31`).join('');
const FROST_LINES = FINS.map((x) => `M${x + 1.6} 6V30`).join('');

/** Evaporator fins over their pan, and how much ice is on them. */
export function IceDrawing({ grade }: { grade: number }) {
  return (
    <g>
      <path d={FIN_LINES} stroke="currentColor" strokeWidth="1.3" />
      {grade === 1 ? <path d={FROST_LINES} className="stroke-cold" strokeWidth="2.6" strokeDasharray="1 2.4" /> : null}
      {grade === 2 ? <path d="M7 31V20q6-6 12-3t8 6 6 8Z" className="fill-cold" opacity="0.75" /> : null}
      {grade === 3 ? <path d="M7 31V9q8-5 16-2t14 1 12 6v17Z" className="fill-cold" opacity="0.75" /> : null}
      {grade === 4 ? <path d="M5 42V5q8-3 18-1t18-1 17 2V42Z" className="fill-cold" opacity="0.85" /> : null}
      <path
        d="M4 35H60L56 43H8Z"
        fill={grade === 4 ? 'none' : 'var(--sheet)'}
        stroke="currentColor"
        strokeWidth="1.8"
        strokeLinejoin="round"
      />
      {grade === 2 ? <path d="M8 35H24V40H10Z" className="fill-cold" opacity="0.75" /> : null}
      <path d="M5 10H59M5 20H59" stroke="currentColor" strokeWidth="1.8" opacity="0.75" />
    </g>
  );
}
