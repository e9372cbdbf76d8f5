import 'server-only';
import type { PolicyOnFile } from '../../../core/evidence';
import { policyOnFile } from '../../evidence/reads/fouling';
import type { ServiceContext } from '../../context';

/** The policy as it is kept. */
export const presentRules = ({ db }: Pick<ServiceContext, 'db'>): Promise<PolicyOnFile> => policyOnFile(db);
