import { failed, ok, type Result } from '../math/result.ts';
import { contradictions } from './contradictions.ts';
import { DESIGN_FORMAT, DESIGN_VERSION, type DesignDocument, designSchema } from './design.ts';
import { type DesignFault, fault, listedFaults, shownValue } from './faults.ts';
import { readJson } from './json-text.ts';
import { migrated, type RawDesign } from './migrations.ts';
import { schemaFaults } from './schema-faults.ts';

/** A design, or everything that is wrong with it. */
export type DesignResult = Result<DesignDocument, readonly DesignFault[]>;

/** First version that was ever written. */
const FIRST_VERSION = 1;

/**
 * Reads a design file: size cap, UTF-8, JSON, envelope, version, migration of a copy, validation, contradictions.
 * Never throws; the value is built from the validator's output only.
 */
export function readDesign(input: Uint8Array | string): DesignResult {
  const json = readJson(input);
  if (!json.ok) return failed([json.fault]);
  const envelope = readEnvelope(json.value);
  if (!envelope.ok) return failed([envelope.fault]);
  const { design, version } = envelope.value;
  return validateDesign(migrated(design, version, DESIGN_VERSION));
}

/** Validates a value as a design of the present version, as it must be before it may replace an open one. */
export function validateDesign(value: unknown): DesignResult {
  const parsed = designSchema.safeParse(value, { reportInput: true });
  if (!parsed.success) return failed(listedFaults(schemaFaults(parsed.error.issues)));
  const document: DesignDocument = plainZeros(parsed.data);
  const faults = contradictions(document);
  return faults.length > 0 ? failed(faults) : ok(document);
}

/** What every version has in common: an object that names its format and version. */
function readEnvelope(value: unknown): Result<{ design: RawDesign; version: number }, DesignFault> {
  const open = 'Open a Legroom design file.';
  if (!isObject(value)) {
    return failed(fault('notADesign', '', shownValue(value), `an object with "format": "${DESIGN_FORMAT}"`, open));
  }
  const format = Object.hasOwn(value, 'format') ? value.format : undefined;
  if (format !== DESIGN_FORMAT) {
    return failed(fault('notADesign', 'format', shownValue(format), `"${DESIGN_FORMAT}"`, open));
  }
  const version = Object.hasOwn(value, 'version') ? value.version : undefined;
  if (typeof version === 'number' && Number.isInteger(version)) {
    if (version >= FIRST_VERSION && version <= DESIGN_VERSION) return ok({ design: value, version });
    if (version > DESIGN_VERSION) {
      const limit = `${DESIGN_VERSION}, the newest that this program reads`;
      return failed(fault('otherVersion', 'version', String(version), limit, 'Open it with a newer Legroom.'));
    }
  }
  const remedy = `Write "version": ${DESIGN_VERSION}.`;
  return failed(fault('otherVersion', 'version', shownValue(version), `${DESIGN_VERSION}`, remedy));
}

const isObject = (value: unknown): value is RawDesign =>
  typeof value === 'object' && value !== null && !Array.isArray(value);

/** Copies plain JSON with every -0 replaced by 0; keys keep their order. */
function plainZeros<Value>(value: Value): Value;
function plainZeros(value: unknown): unknown {
  if (value === 0) return 0;
  if (Array.isArray(value)) return value.map((item) => plainZeros(item));
  if (typeof value !== 'object' || value === null) return value;
  return Object.fromEntries(Object.entries(value).map(([key, item]) => [key, plainZeros(item)]));
}
