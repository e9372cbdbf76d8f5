/** A finned coil with a lamp behind it: what comes between fins and light. */
export function CoilDrawing({ grade }: { grade: number }) {
  const fins = Array.from({ length: 11 }, (_, i) => 7 + i * 5);
  const lit = grade === 4 ? [] : grade === 3 ? [1, 4, 8] : fins.map((_, i) => i).slice(0, 10);
  return (
    <g>
      {lit.map((i) => (
        <rect key={i} x={(fins[i] ?? 0) + 0.8} y={grade === 3 ? 8 + ((i * 7) % 16) : 7} width="3.6" height={grade === 3 ? 12 : 34} className="fill-heat-2" opacity={grade === 0 ? 0.95 : grade === 1 ? 0.6 : 0.45} />
      ))}
      <g stroke="currentColor" strokeWidth={grade === 0 ? 1 : grade === 1 ? 1.5 : 1.8}>
        {fins.map((x) => (
          <path key={x} d={`M${x} 6V42`} />
        ))}
      </g>
      {grade >= 2 ? <Fluff many={grade} /> : null}
      {grade === 4 ? <rect x="5" y="6" width="54" height="36" className="fill-heat-5" opacity="0.85" /> : null}
      <path d="M4 12H60M4 24H60M4 36H60" stroke="currentColor" strokeWidth="2.2" opacity="0.8" />
      <rect x="4" y="5" width="56" height="38" fill="none" stroke="currentColor" strokeWidth="1.6" />
    </g>
  );
}

/** Tufts on the face, thicker with the grade. */
function Fluff({ many }: { many: number }) {
  const tufts = Array.from({ length: many === 2 ? 12 : 26 }, (_, i) => ({ x: 8 + ((i * 37) % 48), y: 8 + ((i * 23) % 32), r: many === 2 ? 1.7 : 3.1 }));
  return (
    <g className={many === 2 ? 'fill-heat-3' : 'fill-heat-4'}>
      {tufts.map((t, i) => (
        <circle key={i} cx={t.x} cy={t.y} r={t.r} />
      ))}
    </g>
  );
}
