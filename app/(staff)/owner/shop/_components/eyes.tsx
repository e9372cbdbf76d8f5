import { Figure } from '@/app/_ui/figures/figure';
import { Table, Td, Th } from '@/app/_ui/tables/table';
import { ENOUGH, deviateFor } from '@/lib/core/owner/judged';
import { meanInterval } from '@/lib/core/numerics';

type Who = { of: string; name: string; graded: number; worse: number; worseSquares: number };
const STEPS = { unit: 'of a grade', of: (x: number) => x, decimals: 2, most: 2 };

/** Who grades harder than whom: how far from what the unit's own record expected. */
export function Eyes({ people }: { people: Who[] }) {
  const z = deviateFor(people.length);
  return (
    <Table label="Who grades harder">
      <thead>
        <tr>
          <Th>Technician</Th>
          <Th>Grades against what the same unit’s record expected</Th>
          <Th className="text-right">Coils graded</Th>
        </tr>
      </thead>
      <tbody>
        {people.map((p) => {
          const mean = p.graded >= ENOUGH ? meanInterval(p.graded, p.worse, p.worseSquares, z) : null;
          return (
            <tr key={p.of}>
              <Td className="font-bold">{p.name}</Td>
              <Td>
                {mean === null ? (
                  <span className="text-soft">not enough visits yet</span>
                ) : mean.lo > 0 || mean.hi < 0 ? (
                  <>
                    {mean.lo > 0 ? 'harder' : 'milder'} by{' '}
                    <Figure
                      of={{
                        value: Math.abs(mean.value),
                        lo: Math.min(Math.abs(mean.lo), Math.abs(mean.hi)),
                        hi: Math.max(Math.abs(mean.lo), Math.abs(mean.hi)),
                      }}
                      scale={STEPS}
                    />
                  </>
                ) : (
                  <>no difference to be told, within {Math.max(Math.abs(mean.lo), Math.abs(mean.hi)).toFixed(2)} of a grade</>
                )}
              </Td>
              <Td className="text-right">{p.graded}</Td>
            </tr>
          );
        })}
      </tbody>
    </Table>
  );
}
