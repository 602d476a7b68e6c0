import { compiledDesign } from '../../document/compiled.ts';
import { type MeshPlacing, type MeshUnit, placedSize } from '../../state/mesh/place-mesh.ts';
import type { ReadMesh } from '../../state/mesh/read-mesh.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { three } from '../../words/numbers.ts';
import { useDesign } from '../design-binding.ts';
import styles from './judge.module.css';

const UNITS: readonly (readonly [MeshUnit, string])[] = [
  ['mm', 'mm'],
  ['cm', 'cm'],
  ['m', 'm'],
  ['inch', 'inch'],
];

const UPS: readonly (readonly [MeshPlacing['up'], string])[] = [
  ['z', 'Z'],
  ['y', 'Y'],
];

const PLACES = [
  ['plate', 'On the plate'],
  ['file', 'As in the file'],
] as const;

/** A payload this many times as large as the platform, or as small a part of it, is most likely read in the wrong unit. */
const UNLIKELY_LARGE = 6;
const UNLIKELY_SMALL = 0.05;

interface MeshPlacingFormProps {
  readonly mesh: ReadMesh;
  readonly placing: MeshPlacing;
  /** Height at which a mesh on the plate stands [mm]. */
  readonly standsAt: number;
  readonly onChange: (placing: MeshPlacing) => void;
  readonly onTake: () => void;
  readonly onCancel: () => void;
}

/** Asks for what a mesh file does not say: its unit, which way is up, and where it stands. */
export function MeshPlacingForm({ mesh, placing, standsAt, onChange, onTake, onCancel }: MeshPlacingFormProps) {
  const platform = useDesign((document) => 2 * compiledDesign(document).mechanism.size);
  const size = placedSize(mesh, placing);
  const ratio = Math.max(...size) / platform;
  return (
    <fieldset className={styles['placing']} aria-label={`Place ${mesh.source}`}>
      <p className={styles['note']}>
        <b>{mesh.source}</b>: {mesh.triangles.length / 9} triangles, {size.map(three).join(' × ')} mm.{' '}
        {boundWords(mesh)}
      </p>
      <Choice
        name="Unit of the mesh"
        label="Unit"
        value={placing.unit}
        options={UNITS}
        onChoose={(unit) => onChange({ ...placing, unit })}
      />
      {ratio > UNLIKELY_LARGE || ratio < UNLIKELY_SMALL ? (
        <p className={styles['alarm']}>▲ That is {three(ratio)} times as large as the plates: check the unit.</p>
      ) : null}
      <Choice
        name="Axis of the mesh that points up"
        label="Up"
        value={placing.up}
        options={UPS}
        onChoose={(up) => onChange({ ...placing, up })}
      />
      <Choice
        name="Where the mesh stands"
        label="Place"
        value={placing.standsAt === null ? 'file' : 'plate'}
        options={PLACES}
        onChoose={(place) => onChange({ ...placing, standsAt: place === 'plate' ? standsAt : null })}
      />
      <p className={styles['buttons']}>
        <Button onClick={onTake}>Use as payload</Button>
        <Button onClick={onCancel}>Cancel</Button>
      </p>
    </fieldset>
  );
}

function boundWords({ bound: { corners, excess, low, high } }: ReadMesh): string {
  if (!corners) return 'It is flat; the box around it stands for it.';
  const count = corners.length / 3;
  if (excess === 0) return `Its convex hull has ${count} corners.`;
  const size = Math.hypot(high[0] - low[0], high[1] - low[1], high[2] - low[2]);
  return `A hull of ${count} corners holds it; it lies at most ${three((100 * excess) / size)} % of its size outside.`;
}
