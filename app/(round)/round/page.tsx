import { RoundApp } from './_components/round-app';

// A shell without data, the same for everyone and kept on the tablet; what it shows comes from guarded routes.
export const dynamic = 'force-static';

export default function RoundPage() {
  return <RoundApp />;
}
