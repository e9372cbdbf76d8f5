/** Three blades: whole, loaded, or broken and still. */
export function FanDrawing({ grade }: { grade: number }) {
  const blade = 'M32 24C30 15 34 7 41 8 45 9 42 18 32 24Z';
  return (
    <g>
      <circle cx="32" cy="24" r="20" fill="none" stroke="currentColor" strokeWidth="1.6" />
      {[0, 120, 240].map((turn, i) => (
        <path
          key={turn}
          d={grade === 2 && i === 1 ? 'M32 24C31 19 32 16 35 15L37 18C36 21 35 22 32 24Z' : blade}
          transform={`rotate(${turn} 32 24)`}
          fill="currentColor"
          opacity={grade === 0 ? 0.75 : 0.6}
        />
      ))}
      {grade === 1 ? (
        <g className="fill-heat-4">
          {[0, 120, 240].map((turn) => (
            <g key={turn} transform={`rotate(${turn} 32 24)`}>
              <circle cx="38" cy="11" r="2.6" />
              <circle cx="36" cy="15" r="1.8" />
            </g>
          ))}
        </g>
      ) : null}
      {grade === 2 ? <path d="M18 10 46 38M46 10 18 38" className="stroke-alarm" strokeWidth="2.6" /> : null}
      <circle cx="32" cy="24" r="3.2" fill="var(--sheet)" stroke="currentColor" strokeWidth="1.6" />
    </g>
  );
}
