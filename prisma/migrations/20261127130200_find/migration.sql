-- What is looked for by a piece of it: small letters without accents, and numbers and serials also without what is written
-- between their signs, so that "555 0142" finds "(555) 0142" and "ab12" finds "AB-12".
CREATE FUNCTION find_text(VARIADIC parts TEXT[]) RETURNS TEXT LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT translate(lower(array_to_string(parts, ' ')),
    'àáâãäåçèéêëìíîïñòóôõöøùúûüýÿāăąćčďđēėęěğīįłńňőŕřśšşťţūůűųźżž’',
    'aaaaaaceeeeiiiinoooooouuuuyyaaaccddeeeegiilnnorrsssttuuuuzzz''')
$$;
CREATE FUNCTION find_signs(TEXT) RETURNS TEXT LANGUAGE sql IMMUTABLE PARALLEL SAFE AS $$
  SELECT regexp_replace(lower($1), '[^a-z0-9]', '', 'g')
$$;
CREATE INDEX customer_find ON "Customer" USING gin (find_text(name, "contactName", email, phone, find_signs(phone)) gin_trgm_ops);
CREATE INDEX kitchen_find ON "Kitchen" USING gin (find_text(name, address, "contactName", "contactEmail", "contactPhone", find_signs("contactPhone")) gin_trgm_ops);
CREATE INDEX unit_find ON "Unit" USING gin (find_text(name, tag, make, model, serial, find_signs(serial), find_signs(tag)) gin_trgm_ops);
