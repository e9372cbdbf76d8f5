import Link from 'next/link';

type Props = { said: boolean; cleaningCost: number; failureCost: number; maySet: boolean };

/** Intervals weigh costs: as long as the shop has not said its own, what is taken instead is told. */
export function AssumedCosts({ said, cleaningCost, failureCost, maySet }: Props) {
  if (said) return null;
  return (
    <p className="mb-5 max-w-[80ch] rounded-md border-2 border-edge bg-sheet p-3">
      <b>Costs are a guess.</b> Nobody has said yet what a cleaning and a breakdown cost this shop. Until then intervals weigh a cleaning at{' '}
      {cleaningCost} and a breakdown at {failureCost}, usual figures in US dollars (common practice).{' '}
      {maySet ? <Link href="/shop#costs">Set what things cost</Link> : null}
    </p>
  );
}
