import { later } from '../../_lib/later';

// Few visits open a circuit.
export const { Page: SealedPage } = later(() => import('./sealed-page').then((m) => m.SealedPage));
