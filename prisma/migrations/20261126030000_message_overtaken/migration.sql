-- A message that a later one about the same visit, or the visit itself, came before is not sent any more.
ALTER TYPE "MessageStatus" ADD VALUE 'overtaken';
