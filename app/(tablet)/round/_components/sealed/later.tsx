import { lazy, Suspense, type ComponentProps } from 'react';

// Few visits open a circuit: what it takes is not part of a cold start, though it is kept on the tablet with the rest.
const Page = lazy(() => import('./sealed-page').then((m) => ({ default: m.SealedPage })));

export const SealedPage = (p: ComponentProps<typeof Page>) => (
  <Suspense fallback={<p className="py-16 text-center text-soft">Opening …</p>}>
    <Page {...p} />
  </Suspense>
);
