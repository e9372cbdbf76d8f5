/** A pan, its line, and what the water does. */
export function DrainDrawing({ grade }: { grade: number }) {
  const level = [0, 3, 8, 5, 2][grade] ?? 0;
  return (
    <g strokeLinejoin="round" strokeLinecap="round">
      {level > 0 ? <path d={`M9 ${22 - level}H55L52 22H12Z`} className="fill-cold" opacity="0.7" /> : null}
      <path d="M6 8 11 22H28M36 22H53L58 8" fill="none" stroke="currentColor" strokeWidth="2.2" />
      <path
        d={grade === 4 ? 'M28 22V28M28 34V42M36 22V26M36 37V42' : 'M28 22V42M36 22V42'}
        fill="none"
        stroke="currentColor"
        strokeWidth="2.2"
      />
      {grade === 0 ? <path d="M32 24v5M32 33v5M32 42v3" className="stroke-cold" strokeWidth="3" /> : null}
      {grade === 1 ? <path d="M32 38v.5M32 45v.5" className="stroke-cold" strokeWidth="3.4" /> : null}
      {grade === 2 ? <path d="M28.5 24h7v9q-3.5 3-7 0Z" className="fill-heat-5" /> : null}
      {grade === 3 ? (
        <g className="stroke-cold" strokeWidth="1.8">
          <path d="M32 24v16M28.8 27l6.4 10M35.2 27l-6.4 10" />
        </g>
      ) : null}
      {grade === 4 ? <path d="m26 29 5 3-4 2 6 3M38 27l-3 4 5 2-4 4" fill="none" className="stroke-alarm" strokeWidth="2" /> : null}
    </g>
  );
}
