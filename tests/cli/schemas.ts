/** Validators for what the program prints. */
import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { Ajv2020, type ValidateFunction } from 'ajv/dist/2020.js';
import { Ajv } from 'ajv';
import addFormats from 'ajv-formats';
import sarifSchema from '@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json' with { type: 'json' };

const folder = join(import.meta.dirname, '..', '..', 'docs', 'schemas');

/** The schema in docs, as a reader of the docs has it. */
export function documented(name: string): ValidateFunction {
  const ajv = new Ajv2020({ allErrors: true, strictTypes: false });
  return ajv.compile(JSON.parse(readFileSync(join(folder, name), 'utf8')) as object);
}

/**
 * The schema of SARIF 2.1.0 as published with the standard (release rtm.5 of its text), MIT-licensed. It is written in draft 04 of
 * JSON Schema, and uses nothing that draft 07 reads otherwise but the name of `id`.
 */
export function sarif(): ValidateFunction {
  const schema: Record<string, unknown> = { ...sarifSchema, $id: sarifSchema.id };
  delete schema['$schema'];
  delete schema['id'];
  const ajv = new Ajv({ allErrors: true, strict: false, unicodeRegExp: false });
  addFormats.default(ajv);
  return ajv.compile(schema);
}

/** What is wrong with a value, one line a fault; nothing for one that fits. */
export function faults(validate: ValidateFunction, value: unknown): string[] {
  validate(value);
  return (validate.errors ?? []).map((error) => `${error.instancePath} ${error.message ?? error.keyword}`);
}
