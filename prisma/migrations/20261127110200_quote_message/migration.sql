-- A quote goes out by mail like the news of a visit.
ALTER TYPE "MessageKind" ADD VALUE 'quote_sent';
