-- Whether air reaches the condenser. Added names can be used from the next migration on.
ALTER TYPE "Aspect" ADD VALUE 'air_path' AFTER 'condenser_fan';
ALTER TYPE "Grade" ADD VALUE 'open';
ALTER TYPE "Grade" ADD VALUE 'narrowed';
