// One path for all that is alike: five drawings stand on a screen that must answer at once.
const FINS = Array.from({ length: 11 }, (_, i) => 7 + i * 5);
const FIN_LINES = FINS.map((x) => `M${x} 6V42`).join('');

/** A finned coil with a lamp behind it: what comes between fins and light. */
export function CoilDrawing({ grade }: { grade: number }) {
  return (
    <g>
      <path d={light(grade)} className="fill-heat-2" opacity={grade === 0 ? 0.95 : grade === 1 ? 0.6 : 0.45} />
      <path d={FIN_LINES} stroke="currentColor" strokeWidth={grade === 0 ? 1 : grade === 1 ? 1.5 : 1.8} />
      {grade >= 2 ? <path d={fluff(grade)} className={grade === 2 ? 'fill-heat-3' : 'fill-heat-4'} /> : null}
      {grade === 4 ? <rect x="5" y="6" width="54" height="36" className="fill-heat-5" opacity="0.85" /> : null}
      <path d="M4 12H60M4 24H60M4 36H60" stroke="currentColor" strokeWidth="2.2" opacity="0.8" />
      <rect x="4" y="5" width="56" height="38" fill="none" stroke="currentColor" strokeWidth="1.6" />
    </g>
  );
}

/** The gaps through which the lamp still shows. */
function light(grade: number): string {
  const lit = grade === 4 ? [] : grade === 3 ? [1, 4, 8] : [...FINS.keys()].slice(0, 10);
  return lit.map((i) => `M${(FINS[i] ?? 0) + 0.8} ${grade === 3 ? 8 + ((i * 7) % 16) : 7}h3.6v${grade === 3 ? 12 : 34}h-3.6Z`).join('');
}

/** Tufts on the face, thicker with the grade. */
function fluff(grade: number): string {
  const r = grade === 2 ? 1.7 : 3.1;
  return Array.from(
    { length: grade === 2 ? 12 : 26 },
    (_, i) => `M${8 + ((i * 37) % 48) - r} ${8 + ((i * 23) % 32)}a${r} ${r} 0 1 0 ${2 * r} 0a${r} ${r} 0 1 0 ${-2 * r} 0Z`,
  ).join('');
}
