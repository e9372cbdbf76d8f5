import 'server-only';
import type { ShopRules } from '../../../core/evidence';
import { shopRules } from '../../evidence/reads/fouling';
import type { ServiceContext } from '../../context';

/** The policy as it is kept. */
export const presentRules = ({ db }: Pick<ServiceContext, 'db'>): Promise<ShopRules> => shopRules(db);
