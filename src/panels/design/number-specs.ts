import type { DesignDocument, RingDocument } from '../../document/design.ts';
import {
  changeCharacteristicLength,
  changeHoles,
  changeHome,
  changeLean,
  changeLegs,
  changePoint,
  changeRing,
  changeTiltLimit,
  changeTool,
  changeToolOnPlate,
  changeToward,
  JOINTS,
  POSE_ANGLES,
} from '../../document/edits/edit.ts';
import { type NumberName, RANGES } from '../../document/ranges.ts';
import type { PlateName } from '../../kinematics/layout.ts';
import type { Travel } from '../../ui/travel.ts';
import { AXES, type NumberSpec, PLATE_WORDS } from '../number-spec.ts';

type Rest = Pick<NumberSpec, 'travel' | 'read' | 'write'> & Partial<NumberSpec>;

const spec = (name: string, label: string, range: NumberName, rest: Rest): NumberSpec => {
  const { unit } = RANGES[range];
  return { name, label, unit, decimals: unit === '' ? 0 : 1, range, ...rest };
};

const ringOf = (document: DesignDocument, plate: PlateName): RingDocument | null => {
  const layout = document[plate];
  return 'ring' in layout ? layout.ring : null;
};

/** Which numbers of a ring have a slider. */
export interface RingSpecs {
  readonly radius: NumberSpec;
  readonly gap: NumberSpec;
  readonly turn: NumberSpec;
  readonly jointHeight: NumberSpec;
  readonly holeCount: NumberSpec;
  readonly holeStart: NumberSpec;
}

function ringSpecs(plate: PlateName): RingSpecs {
  const name = PLATE_WORDS[plate];
  const number = (key: 'radius_mm' | 'gap_deg' | 'turn_deg' | 'jointHeight_mm', travel: Travel): Rest => ({
    travel,
    read: (document) => ringOf(document, plate)?.[key] ?? 0,
    write: (document, value) => changeRing(document, plate, { [key]: value }),
  });
  const hole = (key: 'count' | 'start_deg', travel: Travel): Rest => ({
    travel,
    read: (document) => ringOf(document, plate)?.holes?.[key] ?? 0,
    write: (document, value) => {
      const holes = ringOf(document, plate)?.holes;
      return holes ? changeHoles(document, plate, { ...holes, [key]: value }) : document;
    },
  });
  return {
    radius: spec(`${name} radius`, 'Radius', 'radius_mm', number('radius_mm', { min: 10, max: 200, step: 1 })),
    gap: spec(`${name} pair gap`, 'Pair gap', 'gap_deg', number('gap_deg', { min: 0, max: 120, step: 1 })),
    turn: spec(`${name} turn`, 'Turn', 'turn_deg', number('turn_deg', { min: -60, max: 60, step: 1 })),
    jointHeight: spec(
      `${name} joint height`,
      'Joint height',
      'jointHeight_mm',
      number('jointHeight_mm', { min: 0, max: 50, step: 0.5 }),
    ),
    holeCount: spec(`${name} holes`, 'Holes', 'count', hole('count', { min: 3, max: 144, step: 1 })),
    holeStart: spec(
      `${name} first hole`,
      'First hole at',
      'start_deg',
      hole('start_deg', { min: -30, max: 30, step: 0.5 }),
    ),
  };
}

export const RING_SPECS: Readonly<Record<PlateName, RingSpecs>> = {
  base: ringSpecs('base'),
  platform: ringSpecs('platform'),
};

const leg = (key: 'min_mm' | 'max_mm' | 'barrelDiameter_mm' | 'rodDiameter_mm', travel: Travel): Rest => ({
  travel,
  read: (document) => document.legs[key],
  write: (document, value) => changeLegs(document, { [key]: value }),
});

export const LEG_SPECS: readonly NumberSpec[] = [
  spec('Shortest leg', 'Shortest', 'min_mm', {
    ...leg('min_mm', { min: 20, max: 400, step: 1 }),
    below: { read: (document) => document.legs.max_mm, says: 'the longest leg' },
  }),
  spec('Longest leg', 'Longest', 'max_mm', {
    ...leg('max_mm', { min: 20, max: 400, step: 1 }),
    above: { read: (document) => document.legs.min_mm, says: 'the shortest leg' },
  }),
  spec('Barrel diameter', 'Barrel dia.', 'barrelDiameter_mm', leg('barrelDiameter_mm', { min: 4, max: 60, step: 0.5 })),
  spec('Rod diameter', 'Rod dia.', 'rodDiameter_mm', leg('rodDiameter_mm', { min: 2, max: 40, step: 0.5 })),
];

const jointSpecs = (plate: PlateName) => {
  const name = PLATE_WORDS[plate];
  return {
    tilt: spec(`${name} joint tilt limit`, 'Tilt limit', 'tilt_deg', {
      travel: { min: 5, max: 90, step: 0.5 },
      read: (document) => document.joints[plate].tilt_deg,
      write: (document, value) => changeTiltLimit(document, plate, value),
    }),
    lean: spec(`${name} mount lean`, 'Lean', 'lean_deg', {
      travel: { min: 0, max: 60, step: 0.5 },
      read: (document) => {
        const { mount } = document.joints[plate];
        return typeof mount === 'string' ? 0 : mount.lean_deg;
      },
      write: (document, value) => changeLean(document, plate, value),
    }),
    toward: JOINTS.map((joint) =>
      spec(`${name} mount ${joint} azimuth`, String(joint), 'toward_deg', {
        travel: { min: -180, max: 180, step: 1 },
        read: (document) => {
          const { mount } = document.joints[plate];
          return typeof mount === 'string' ? 0 : mount.toward_deg[joint - 1];
        },
        write: (document, value) => changeToward(document, plate, joint, value),
      }),
    ),
  };
};

export const JOINT_SPECS = { base: jointSpecs('base'), platform: jointSpecs('platform') } as const;

const pointSpecs = (plate: PlateName) =>
  JOINTS.map((joint) => ({
    joint,
    coordinates: AXES.map((axis, index) =>
      spec(`${PLATE_WORDS[plate]} joint ${joint} ${axis}`, axis, 'points_mm', {
        travel: { min: -200, max: 200, step: 1 },
        read: (document) => {
          const layout = document[plate];
          return 'ring' in layout ? 0 : layout.points_mm[joint - 1][index];
        },
        write: (document, value) => changePoint(document, plate, joint, index, value),
      }),
    ),
  }));

/** Six joints of three coordinates. */
export const POINT_SPECS = { base: pointSpecs('base'), platform: pointSpecs('platform') } as const;

const toolSpecs = (change: typeof changeTool): readonly NumberSpec[] =>
  AXES.map((axis, index) =>
    spec(`Tool point ${axis}`, axis, 'point_mm', {
      travel: { min: -100, max: 100, step: 1 },
      read: (document) => document.tool.point_mm[index],
      write: (document, value) => change(document, index, value),
    }),
  );

/** The tool point, by what stays where it is when it is moved: the plate, or the numbers of the home pose. */
export const TOOL_SPECS = { plate: toolSpecs(changeToolOnPlate), home: toolSpecs(changeTool) } as const;

const homeAngle = (index: number): Rest => {
  const key = POSE_ANGLES[index];
  return {
    travel: { min: -60, max: 60, step: 0.5 },
    read: (document) => document.home[key],
    write: (document, value) => changeHome(document, 3 + index, value),
  };
};

export const HOME_SPECS: readonly NumberSpec[] = [
  ...AXES.map((axis, index) =>
    spec(`Home ${axis}`, axis, 'position_mm', {
      travel: index === 2 ? { min: 0, max: 400, step: 1 } : { min: -100, max: 100, step: 1 },
      read: (document) => document.home.position_mm[index],
      write: (document, value) => changeHome(document, index, value),
    }),
  ),
  spec('Home roll', 'roll', 'roll_deg', homeAngle(0)),
  spec('Home pitch', 'pitch', 'pitch_deg', homeAngle(1)),
  spec('Home yaw', 'yaw', 'yaw_deg', homeAngle(2)),
];

export const LENGTH_SPEC: NumberSpec = spec('Characteristic length', 'Length', 'characteristicLength_mm', {
  travel: { min: 10, max: 200, step: 1 },
  read: (document) => document.characteristicLength_mm ?? 0,
  write: changeCharacteristicLength,
});
