import { Plus, Trash2 } from 'lucide-react';
import type { DesignDocument } from '../../document/design.ts';
import {
  addCorner,
  assumeBody,
  type BodyNumber,
  bodyNumber,
  changeBodyNumber,
  changeCorner,
  chooseOutline,
  cornersOf,
  type OutlineKind,
  outlineKind,
  removeCorner,
} from '../../document/edits/plate-body.ts';
import { MOST_CORNERS } from '../../document/judgement-fields.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import { Button } from '../../ui/Button.tsx';
import { Choice } from '../../ui/Choice.tsx';
import { Fold } from '../../ui/Fold.tsx';
import { Table } from '../../ui/Table.tsx';
import type { Travel } from '../../ui/travel.ts';
import { roundedText } from '../../words/numbers.ts';
import { DesignCell, DesignNumber } from '../DesignNumber.tsx';
import { makeEdit, useDesign } from '../design-binding.ts';
import { type NumberSpec, PLATE_WORDS } from '../number-spec.ts';
import styles from './design.module.css';

const OUTLINES: readonly (readonly [OutlineKind, string])[] = [
  ['assumed', 'Assumed'],
  ['round', 'Round'],
  ['corners', 'Corners'],
];

const number = (plate: PlateName, key: BodyNumber, words: string, label: string, travel: Travel): NumberSpec => ({
  name: `${PLATE_WORDS[plate]} plate ${words}`,
  label,
  unit: 'mm',
  decimals: 1,
  range: key,
  travel,
  read: (document) => bodyNumber(document, plate, key),
  write: (document, value) => changeBodyNumber(document, plate, key, value),
});

const specsOf = (plate: PlateName) => ({
  thickness: number(plate, 'thickness_mm', 'thickness', 'Thickness', { min: 1, max: 40, step: 0.5 }),
  diameter: number(plate, 'outlineDiameter_mm', 'diameter', 'Diameter', { min: 20, max: 500, step: 1 }),
  opening: number(plate, 'openingDiameter_mm', 'opening', 'Opening dia.', { min: 0, max: 300, step: 1 }),
  zone: number(plate, 'jointZone_mm', 'joint zone', 'Joint zone', { min: 0, max: 60, step: 0.5 }),
});

const SPECS = { base: specsOf('base'), platform: specsOf('platform') } as const;

function bodyBrief(document: DesignDocument, plate: PlateName): string {
  if (!document.plates?.[plate]) return 'assumed';
  return `${roundedText(bodyNumber(document, plate, 'thickness_mm'), 1)} mm thick`;
}

const Brief = ({ plate }: { readonly plate: PlateName }) => useDesign((document) => bodyBrief(document, plate));

/** Outline, thickness and opening of a plate: for the drawing and for clearances. */
export function PlateBody({ plate }: { readonly plate: PlateName }) {
  const name = PLATE_WORDS[plate];
  const kind = useDesign((document) => outlineKind(document, plate));
  const stated = useDesign((document) => document.plates?.[plate] !== undefined);
  const specs = SPECS[plate];
  return (
    <Fold name={`${name} plate body`} label="Plate body" brief={<Brief plate={plate} />}>
      <Choice
        name={`${name} plate outline`}
        label="Outline"
        value={kind}
        options={OUTLINES}
        onChoose={(wanted) =>
          makeEdit((document) => chooseOutline(document, plate, wanted), `${name} plate outline ${wanted}`)
        }
      />
      {kind === 'round' ? <DesignNumber spec={specs.diameter} /> : null}
      {kind === 'corners' ? <Corners plate={plate} /> : null}
      <DesignNumber spec={specs.thickness} />
      <DesignNumber spec={specs.opening} />
      <DesignNumber spec={specs.zone} />
      <p className={styles['readout']}>
        For clearances and the drawing. The joint zone is the length of leg beside its joint that is not checked against
        this plate.
      </p>
      {stated ? (
        <Button onClick={() => makeEdit((document) => assumeBody(document, plate), `${name} plate assumed`)}>
          Leave the plate to the assumption
        </Button>
      ) : null}
    </Fold>
  );
}

const cornerSpecs = new Map<string, NumberSpec>();

/** The number field of a corner's x or y; the same object each time. */
function cornerSpec(plate: PlateName, corner: number, axis: 0 | 1): NumberSpec {
  const name = `${PLATE_WORDS[plate]} plate corner ${corner + 1} ${'xy'[axis]}`;
  const known = cornerSpecs.get(name);
  if (known) return known;
  const spec: NumberSpec = {
    name,
    label: 'xy'[axis],
    unit: 'mm',
    decimals: 1,
    range: 'outline_mm',
    travel: { min: -200, max: 200, step: 1 },
    read: (document) => cornersOf(document, plate)?.[corner]?.[axis] ?? 0,
    write: (document, value) => changeCorner(document, plate, corner, axis, value),
  };
  cornerSpecs.set(name, spec);
  return spec;
}

function Corners({ plate }: { readonly plate: PlateName }) {
  const name = PLATE_WORDS[plate];
  const count = useDesign((document) => cornersOf(document, plate)?.length ?? 0);
  const corners = [...Array(count).keys()];
  return (
    <Table className={styles['points']}>
      <caption>Corners of a convex outline, counter-clockwise from above, mm</caption>
      <thead>
        <tr>
          <th scope="col">Corner</th>
          <th scope="col">x</th>
          <th scope="col">y</th>
          <th scope="col">
            <span className="spoken">Add or remove</span>
          </th>
        </tr>
      </thead>
      <tbody>
        {corners.map((corner) => (
          <tr key={corner}>
            <th scope="row">{corner + 1}</th>
            <td>
              <DesignCell spec={cornerSpec(plate, corner, 0)} />
            </td>
            <td>
              <DesignCell spec={cornerSpec(plate, corner, 1)} />
            </td>
            <td className={styles['tools']}>
              <Button
                look="quiet"
                aria-label={`Add a corner after corner ${corner + 1} of the ${name.toLowerCase()} plate`}
                disabled={count >= MOST_CORNERS}
                onClick={() => makeEdit((document) => addCorner(document, plate, corner), `${name} plate corner added`)}
              >
                <Plus size={13} aria-hidden="true" />
              </Button>
              <Button
                look="quiet"
                aria-label={`Remove corner ${corner + 1} of the ${name.toLowerCase()} plate`}
                disabled={count <= 3}
                onClick={() =>
                  makeEdit((document) => removeCorner(document, plate, corner), `${name} plate corner removed`)
                }
              >
                <Trash2 size={13} aria-hidden="true" />
              </Button>
            </td>
          </tr>
        ))}
      </tbody>
    </Table>
  );
}
