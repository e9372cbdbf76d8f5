-- An ice machine is looked at for scale and at its float. Values of an enum are there for use only once this is committed.
ALTER TYPE "Aspect" ADD VALUE 'scale';
ALTER TYPE "Aspect" ADD VALUE 'float';
ALTER TYPE "Grade" ADD VALUE 'crusted';
ALTER TYPE "Grade" ADD VALUE 'caked';
