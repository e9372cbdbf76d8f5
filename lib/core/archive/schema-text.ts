/** What `prisma/schema.prisma` says in words, read from its text: the database itself knows types, not meanings. */

export type ColumnWords = { name: string; type: string; comment: string };
export type ModelWords = { name: string; comment: string; columns: ColumnWords[] };

/**
 * Models of a schema with the `///` lines that stand above them and their columns.
 * @returns models in the order of the text; `words` is empty where nothing stands above
 */
export function modelsOf(schema: string): ModelWords[] {
  const models: ModelWords[] = [];
  let model: ModelWords | null = null;
  let said: string[] = [];
  for (const raw of schema.split('\n')) {
    const line = raw.trim();
    const comment = /^\/\/\/ ?(.*)$/.exec(line);
    const opened = /^model (\w+) \{$/.exec(line);
    const column = model && /^(\w+)\s+(\w+)/.exec(line);
    if (comment) said.push(comment[1] ?? '');
    else if (opened?.[1]) models.push((model = { name: opened[1], comment: said.splice(0).join(' '), columns: [] }));
    else if (line === '}') model = null;
    else if (model && column?.[1]) model.columns.push({ name: column[1], type: column[2] ?? '', comment: said.splice(0).join(' ') });
    if (!comment) said = [];
  }
  return models;
}
