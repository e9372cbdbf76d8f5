import { readFileSync } from 'node:fs';
import { resolve } from 'node:path';

const schema = readFileSync(resolve('prisma/schema.prisma'), 'utf8');

/** The members of an enum of the database, as the schema lists them. */
export function enumOf(name: string): string[] {
  const body = new RegExp(`^enum ${name} \\{\\n([^}]*)\\}`, 'm').exec(schema)?.[1] ?? '';
  return body.split('\n').flatMap((line) => line.trim() || []);
}

/** A model's columns with their types: "String", "Float?" … */
export function columnsOf(model: string): Map<string, string> {
  const body = new RegExp(`^model ${model} \\{\\n([\\s\\S]*?)\\n\\}`, 'm').exec(schema)?.[1] ?? '';
  return new Map([...body.matchAll(/^ {2}(\w+)\s+(\S+)/gm)].map(([, name = '', type = '']) => [name, type]));
}
