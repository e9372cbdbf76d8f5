-- Kitchens with a word, in their own text or their customer's, that comes near one of those given. The share of three-letter pieces that
-- counts as near is set for this function alone; the indexes of kitchen_find and customer_find serve it, so the texts are written as there.
SELECT word_similarity('a', 'a');
CREATE FUNCTION near_kitchens(terms TEXT[]) RETURNS SETOF UUID LANGUAGE sql STABLE SET pg_trgm.word_similarity_threshold = 0.45 AS $$
  SELECT k.id FROM unnest(terms) AS t(word)
    JOIN "Kitchen" k ON find_text(k.name, k.address, k."contactName", k."contactEmail", k."contactPhone", find_signs(k."contactPhone")) %> t.word
  UNION
  SELECT k.id FROM unnest(terms) AS t(word)
    JOIN "Customer" c ON find_text(c.name, c."contactName", c.email, c.phone, find_signs(c.phone)) %> t.word
    JOIN "Kitchen" k ON k."customerId" = c.id
$$;
