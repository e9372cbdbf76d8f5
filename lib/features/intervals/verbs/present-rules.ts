import 'server-only';
import type { ShopPolicy } from '../../../core/intervals';
import { policyOnFile } from '../../evidence/reads/fouling';
import type { ServiceContext } from '../../context';

/** The policy as it is kept. */
export const presentRules = ({ db }: Pick<ServiceContext, 'db'>): Promise<ShopPolicy> => policyOnFile(db);
